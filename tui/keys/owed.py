"""Keys of what else is owed for a job."""

from tui.keys.key import Key

KEYS: tuple[Key, ...] = (
    Key(
        "owed-dates",
        "f3,ctrl+t",
        "dates",
        "Give dates",
        "Asks when the work was done, or a tenant moved in, or a council asked: days that others are counted from.",
    ),
    Key("owed-answer", "enter,ctrl+j", "take", "Take it", "Gives the answer under the cursor."),
    Key("owed-done", "enter,ctrl+j", "done", "Done", "Goes back to where you came from; every answer is kept."),
    Key(
        "owed-before",
        "left,backspace,ctrl+h",
        "before",
        "Question before",
        "Goes back a question; its answer stays under the cursor.",
    ),
)
