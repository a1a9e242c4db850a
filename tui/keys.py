"""Every key of the program, in one table: what it does, its word in the foot line, its sentence in the help."""

from dataclasses import dataclass
from typing import Any

from textual.binding import Binding
from textual.dom import DOMNode
from textual.screen import Screen


@dataclass(frozen=True, slots=True)
class Key:
    """One binding. `keys` is a comma-separated list as Textual names keys; the first is shown."""

    id: str
    keys: str
    action: str
    word: str
    says: str
    foot: bool = True

    @property
    def shown(self) -> str:
        """The key as printed on a keyboard."""
        first = self.keys.split(",")[0]
        return _SHOWN.get(first) or (f"Ctrl+{first[5:].upper()}" if first.startswith("ctrl+") else first.upper())


_SHOWN = {
    "enter": "Enter",
    "escape": "Esc",
    "tab": "Tab",
    "shift+tab": "Shift+Tab",
    "up": "Up",
    "down": "Down",
    "left": "Left",
    "right": "Right",
    "home": "Home",
    "end": "End",
    "pageup": "PgUp",
    "pagedown": "PgDn",
    "delete": "Del",
    "backspace": "Backspace",
    "space": "Space",
    "ctrl+up": "Ctrl+Up",
    "ctrl+down": "Ctrl+Down",
    "ctrl+left": "Ctrl+Left",
    "ctrl+right": "Ctrl+Right",
    "ctrl+home": "Ctrl+Home",
    "ctrl+end": "Ctrl+End",
}

ENTER = "enter,ctrl+j"

KEYS: tuple[Key, ...] = (
    # Everywhere
    Key("help", "f1", "app.help", "Help", "Shows what this screen is for and every key that works on it."),
    Key(
        "palette",
        "ctrl+p",
        "app.command_palette",
        "All",
        "Lists everything that can be done here, to pick by typing.",
        foot=False,
    ),
    Key("back", "escape", "back", "Back", "Goes back one step. What was typed stays."),
    Key("leave", "ctrl+x", "app.leave", "Leave", "Leaves the program. Everything saved stays saved."),
    # Inside a job
    Key(
        "details",
        "f3",
        "step('details')",
        "Details",
        "Client, premises, the work or the report, supply, earthing, boards.",
        foot=False,
    ),
    Key("circuits", "f4", "step('circuits')", "Circuits", "The schedule of circuit details.", foot=False),
    Key("results", "f5", "step('results')", "Results", "The schedule of test results.", foot=False),
    Key("inspection", "f6", "step('inspection')", "Inspect", "The inspection items with their outcomes.", foot=False),
    Key("raised", "f7", "step('raised')", "Snags", "The snagging list, or on a report the observations.", foot=False),
    Key(
        "review",
        "f8",
        "step('review')",
        "Check",
        "Everything found and everything still missing, each with its place.",
        foot=False,
    ),
    Key("issue", "f9", "step('issue')", "Issue", "Signatures, the draft, and issuing the pack.", foot=False),
    Key(
        "next-open", "ctrl+g", "next_open", "Next open", "Goes to the next thing that keeps this job from being issued."
    ),
    # Questions, lists and pages of text
    Key("yes", "y,Y,enter,ctrl+j", "answer(True)", "Yes", "Says yes to the question."),
    Key("no", "n,N,escape", "answer(False)", "No", "Says no; everything stays as it was."),
    Key(
        "accept-line", "enter,ctrl+j", "accept_line", "Next", "Takes the line and goes on; on the last line it is done."
    ),
    Key("accept-one", "enter,ctrl+j", "accept_line", "Keep it", "Takes the line as typed."),
    Key("accept-all", "f2,ctrl+o", "accept_all", "Done", "Takes all lines as they stand."),
    Key("line-down", "tab,down", "line(1)", "Next line", "Goes to the next line.", foot=False),
    Key("line-up", "shift+tab,up", "line(-1)", "Line before", "Goes to the line before.", foot=False),
    Key("let-be", "escape", "let_be", "Leave it", "Leaves it; what was there before stays."),
    Key("row-up", "up", "move(-1)", "Up", "Goes up one row.", foot=False),
    Key("row-down", "down", "move(1)", "Down", "Goes down one row.", foot=False),
    Key("rows-up", "pageup", "page(-1)", "Page up", "Goes up one page.", foot=False),
    Key("rows-down", "pagedown", "page(1)", "Page down", "Goes down one page.", foot=False),
    Key("row-first", "home", "ends(0)", "First", "Goes to the first row.", foot=False),
    Key("row-last", "end", "ends(-1)", "Last", "Goes to the last row.", foot=False),
    # A page of boxes
    Key(
        "page-enter",
        "enter,ctrl+j",
        "enter",
        "Keep, go on",
        "While typing: keeps the entry and goes to the next box. On a box at rest: opens its text for changing.",
    ),
    Key("entry-open", "f2,ctrl+e", "open", "Change", "Opens the text under the cursor for changing, at its end."),
    Key(
        "entry-next",
        "tab",
        "next",
        "Next",
        "Keeps the entry and goes to the next box. Typing on a box at rest replaces its text.",
        foot=False,
    ),
    Key("entry-previous", "shift+tab", "previous", "Before", "Keeps the entry and goes back a box.", foot=False),
    Key("entry-down", "down", "down", "Down", "Keeps the entry and goes down.", foot=False),
    Key("entry-up", "up", "up", "Up", "Keeps the entry and goes up.", foot=False),
    Key("page-part-next", "pagedown", "part_next", "Next part", "Goes to the first box under the next heading."),
    Key(
        "page-part-previous",
        "pageup",
        "part_previous",
        "Part before",
        "Goes to the first box under this heading, or the one before.",
        foot=False,
    ),
    Key("page-first", "home", "first", "First", "Goes to the first box.", foot=False),
    Key("page-last", "end", "last", "Last", "Goes to the last box.", foot=False),
    Key(
        "entry-empty",
        "delete,backspace,ctrl+h",
        "empty",
        "Empty",
        "Begins an entry with nothing in it; Enter then clears the box.",
        foot=False,
    ),
    Key("entry-give-back", "escape", "give_back", "As before", "While typing: gives the old text back.", foot=False),
    # Boards
    Key("board-add", "ctrl+o", "add_board", "New board", "Adds a board and goes to its header.", foot=False),
    Key(
        "board-remove",
        "f12,ctrl+k",
        "remove_board",
        "Remove board",
        "Removes the board under the cursor, after a question.",
        foot=False,
    ),
)

BY_ID = {key.id: key for key in KEYS}


def bindings(*ids: str) -> list[Binding | tuple[str, str] | tuple[str, str, str]]:
    """The bindings with these ids, for a screen's or widget's BINDINGS."""
    return [
        Binding(key.keys, key.action, key.word, show=key.foot, key_display=key.shown, id=key.id)
        for key in (BY_ID[each] for each in ids)
    ]


def keys_at(screen: Screen[Any]) -> list[tuple[Key, DOMNode]]:
    """Every key that works on a screen now, with whose it is: help first, then those of this place, then the rest."""
    found = {
        active.binding.id: (BY_ID[active.binding.id], active.node)
        for active in screen.active_bindings.values()
        if active.binding.id in BY_ID
    }
    return sorted(found.values(), key=lambda each: _rank(each[0]))


def _rank(key: Key) -> tuple[int, int]:
    at = _ORDER[key.id]
    if key.id == "help":
        return 0, at
    return 2 if at <= _ORDER["next-open"] else 1, at


_ORDER = {key.id: at for at, key in enumerate(KEYS)}
