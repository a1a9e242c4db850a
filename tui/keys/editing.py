"""Keys of a text while it is typed: they are answered as they come, before all that is bound, and stand in no list."""

from collections.abc import Mapping
from enum import Enum, auto


class Editing(Enum):
    """What a key does in a text."""

    LEFT = auto()
    RIGHT = auto()
    START = auto()
    END = auto()
    WORD_LEFT = auto()
    WORD_RIGHT = auto()
    CUT_BEFORE = auto()
    """The character before the cursor goes."""
    CUT_UNDER = auto()
    CUT_TO_START = auto()
    CUT_TO_END = auto()
    CUT_WORD = auto()
    """The word before the cursor goes."""


MOVES = frozenset({Editing.LEFT, Editing.RIGHT, Editing.START, Editing.END, Editing.WORD_LEFT, Editing.WORD_RIGHT})
"""What moves the cursor and leaves the text."""

EDITING: Mapping[str, Editing] = {
    "left": Editing.LEFT,
    "right": Editing.RIGHT,
    "home": Editing.START,
    "end": Editing.END,
    "ctrl+left": Editing.WORD_LEFT,
    "ctrl+right": Editing.WORD_RIGHT,
    "backspace": Editing.CUT_BEFORE,
    "ctrl+h": Editing.CUT_BEFORE,
    "delete": Editing.CUT_UNDER,
    "ctrl+u": Editing.CUT_TO_START,
    "ctrl+k": Editing.CUT_TO_END,
    "ctrl+w": Editing.CUT_WORD,
}
