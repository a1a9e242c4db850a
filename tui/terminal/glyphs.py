"""Stand-ins, of the same width, for glyphs that a terminal cannot show."""

import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from rich.cells import get_character_cell_size

_IN_NO_CONSOLE_FONT: Mapping[str, str] = {
    "✓": "v",
    "✔": "v",
    "✗": "x",
    "✘": "x",
    "…": "~",
    "Ω": "R",
    "ω": "R",
    "Δ": "d",
    "√": "V",
    "↑": "^",
    "↓": "v",
}
"""Glyphs that some fonts of the Linux console, or its usual ones for western Europe, do not hold.

R stands for ohm in the letter code for resistors (IEC 60062); O would be read as nought and W as watts.
"""
_CORNERS: Mapping[str, str] = dict.fromkeys("┌┐└┘├┤┬┴┼", "+")
_IN_ASCII: Mapping[str, str] = (
    _IN_NO_CONSOLE_FONT
    | _CORNERS
    | {
        "μ": "u",
        "µ": "u",
        "─": "-",
        "━": "-",
        "│": "|",
        "┃": "|",
        "█": "#",
        "·": ".",
        "•": "*",
        "–": "-",
        "—": "-",
        "×": "x",
        "÷": "/",
        "°": "o",
        "±": "~",
        "≤": "<",
        "≥": ">",
        "≠": "#",
        "≈": "~",
        "‘": "'",
        "’": "'",
        "“": '"',
        "”": '"',
        "→": ">",
        "←": "<",
        "£": "L",
        "\xa0": " ",
        "ø": "o",
        "Ø": "O",
        "ß": "s",
        "æ": "a",
        "œ": "o",
        "ł": "l",
        "Ł": "L",
        "đ": "d",
        "ð": "d",
        "þ": "t",
    }
)


@dataclass(frozen=True, slots=True)
class Glyphs:
    """One set of stand-ins."""

    stand_ins: tuple[tuple[str, str], ...]
    ascii_only: bool
    """Whatever has no stand-in is shown as its plain letter, or as a question mark."""

    def shown(self, text: str) -> str:
        """A text as this terminal shows it, cell for cell."""
        return text if text.isascii() else "".join(_shown(self, letter) for letter in text)


@lru_cache(maxsize=2048)
def _shown(glyphs: Glyphs, letter: str) -> str:
    stand_in = dict(glyphs.stand_ins).get(letter)
    if stand_in or letter.isascii() or not glyphs.ascii_only:
        return stand_in or letter
    plain = [part for part in unicodedata.normalize("NFKD", letter) if not unicodedata.combining(part)]
    width = get_character_cell_size(letter)
    return plain[0] if len(plain) == width == 1 and plain[0].isascii() else "?" * width


CONSOLE = Glyphs(tuple(_IN_NO_CONSOLE_FONT.items()), ascii_only=False)
ASCII = Glyphs(tuple(_IN_ASCII.items()), ascii_only=True)
