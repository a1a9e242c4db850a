"""Keys of the first questions."""

from tui.keys.key import Key

KEYS: tuple[Key, ...] = (
    Key("take", "enter,ctrl+j", "take", "Take it", "Gives the answer under the cursor, or opens the job under it."),
    Key(
        "aside-row",
        "delete",
        "lay_aside",
        "Lay aside",
        "Lays the draft under the cursor aside, out of every list but its own; it keeps its number.",
        foot=False,
    ),
    Key("find", "slash,ctrl+f", "find", "Find", "Searches all jobs by any word of theirs."),
    Key("due", "f4,ctrl+d", "due", "Due", "Lists what is due for all jobs, soonest first."),
    Key(
        "registers",
        "f5,ctrl+r",
        "registers",
        "Registers",
        "Opens the registers: people, firms, clients, premises and instruments.",
    ),
    Key(
        "keeping",
        "f7,ctrl+k",
        "keeping",
        "Log",
        "Copies the log and goes back to a copy, carries jobs, looks whether all is whole; office and laptops.",
    ),
    Key("practice", "f6,ctrl+t", "practice", "Practice", "Puts short cases to somebody new to the trade."),
)
