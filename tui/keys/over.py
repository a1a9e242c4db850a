"""Keys of what is laid over a screen to be read: the trail, the help, the coach, the list of everything."""

from tui.keys.key import Key

KEYS: tuple[Key, ...] = (
    Key("trail-visit", "enter,ctrl+j", "visit_edit", "Go there", "Goes to the box of the edit under the cursor."),
    Key("close", "escape,f1", "close", "Close", "Goes back to the screen below."),
    Key("coach-close", "escape,f2", "close", "Close", "Goes back to the question below."),
    Key("pick-key", "enter,ctrl+j", "pick", "Do it", "Does what stands under the cursor."),
)
