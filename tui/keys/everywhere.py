"""Keys that work on every screen."""

from tui.keys.key import Key

STOPS = "ctrl+z"
"""Stops the program until the shell has it go on. It is bound nowhere: it works over every screen."""
LEAVES = "ctrl+x"
"""Works in a window of any size."""

KEYS: tuple[Key, ...] = (
    Key("help", "f1", "app.help", "Help", "Shows what this screen is for and every key that works on it."),
    Key(
        "coach",
        "f2",
        "coach",
        "Coach",
        "Opens or closes the coach: what this is, why it is asked, how it is found, what can hurt, and the rule.",
    ),
    Key(
        "palette",
        "ctrl+p",
        "app.palette",
        "All",
        "Lists everything that can be done here, to pick by typing.",
        foot=False,
        listed=False,
    ),
    Key(
        "repaint",
        "ctrl+l",
        "app.repaint",
        "Paint anew",
        "Paints the screen anew, where something else has written over it.",
        foot=False,
        listed=False,
    ),
    Key("back", "escape", "back", "Back", "Goes back one step. What was typed stays."),
    Key("leave", LEAVES, "app.leave", "Leave", "Leaves the program. Everything saved stays saved."),
)
