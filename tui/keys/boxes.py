"""Keys of a page of boxes; most of them work on a schedule too."""

from tui.keys.key import Key

KEYS: tuple[Key, ...] = (
    Key(
        "page-enter",
        "enter,ctrl+j",
        "enter",
        "Keep",
        "While typing: keeps the entry and goes to the next box. On a box at rest: opens its text for changing.",
    ),
    Key("entry-open", "ctrl+e", "open", "Change", "Opens the text under the cursor for changing, at its end."),
    Key(
        "entry-next",
        "tab",
        "next",
        "Next",
        "Keeps the entry and goes to the next box. Typing on a box at rest replaces its text.",
        foot=False,
        listed=False,
    ),
    Key(
        "entry-previous",
        "shift+tab",
        "previous",
        "Before",
        "Keeps the entry and goes back a box.",
        foot=False,
        listed=False,
    ),
    Key("entry-down", "down", "down", "Down", "Keeps the entry and goes down.", foot=False, listed=False),
    Key("entry-up", "up", "up", "Up", "Keeps the entry and goes up.", foot=False, listed=False),
    Key("page-part-next", "pagedown", "part_next", "Next part", "Goes to the first box under the next heading."),
    Key(
        "page-part-previous",
        "pageup",
        "part_previous",
        "Part before",
        "Goes to the first box under this heading, or the one before.",
        foot=False,
        listed=False,
    ),
    Key("page-first", "home", "first", "First", "Goes to the first box.", foot=False, listed=False),
    Key("page-last", "end", "last", "Last", "Goes to the last box.", foot=False, listed=False),
    Key(
        "entry-empty",
        "delete,backspace,ctrl+h",
        "empty",
        "Empty",
        "Begins an entry with nothing in it; Enter then clears the box.",
        foot=False,
    ),
    Key("entry-give-back", "escape", "give_back", "As before", "While typing: gives the old text back.", foot=False),
    Key(
        "take-known",
        "ctrl+y",
        "take_known",
        "Take known",
        "Takes what the register knows of the letters typed, with the boxes that belong to it; with none typed, takes the client's own address, or shows the register.",
        foot=False,
    ),
    Key(
        "set-na",
        "f10",
        "set_mark('N/A')",
        "N/A",
        "Marks the box N/A, not applicable, and goes on. N and Enter does the same where a figure belongs.",
        foot=False,
    ),
    Key(
        "set-lim",
        "f11",
        "set_mark('LIM')",
        "LIM",
        "Marks the box LIM, an agreed limitation, and goes on; or L and Enter. V and Enter is N/V, not verified.",
        foot=False,
    ),
    Key(
        "set-tick", "f12", "set_mark('Y')", "Tick", "Ticks the box and goes on. Y and Enter does the same.", foot=False
    ),
)
