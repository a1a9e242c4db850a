"""Reads what the framework writes: text, colours and addresses go into a picture, all else is handed on."""

import re
from dataclasses import dataclass, field

from rich.cells import get_character_cell_size, split_graphemes

from tui.terminal.abilities import Abilities
from tui.terminal.screen_buffer import Picture
from tui.terminal.sgr import DEFAULT, Look, NotUnderstoodError, apply_sgr, reduce_colours

_PART = re.compile(
    r"(?P<text>[^\x00-\x1f\x7f-\x9f]+)"
    r"|\x1b\[(?P<codes>[0-9;]*)m"
    r"|\x1b\[(?P<address>\d*;?\d*)H"
    r"|\x1b\]8;[^\x07\x1b]*(?:\x07|\x1b\\)"
    r"|(?P<newline>\r?\n)"
    r"|(?P<return>\r)"
    r"|(?P<aside>\x07|\x1b\][^\x07\x1b]*(?:\x07|\x1b\\))"
    r"|(?P<other>\x1b(?:\[[0-?]*[ -/]*[@-~]?|[ -/]*[0-~])?)"
    r"|(?P<stray>[\x00-\x1f\x7f-\x9f])"
)
_JOINS = re.compile("[\u200d\ufe0f\U0001f3fb-\U0001f3ff]")
"""What makes one sign out of several, or another sign out of one."""


@dataclass(frozen=True, slots=True)
class Aside:
    """A sequence for the terminal itself, not for the picture."""

    sequence: str
    disturbs: bool
    """It may have changed what stands on the screen."""


@dataclass(slots=True)
class FrameReader:
    """Keeps the place and the look of the last thing written, as a terminal would."""

    abilities: Abilities
    x: int = 0
    y: int = 0
    look: Look = field(default=DEFAULT)

    def read(self, written: str, picture: Picture) -> list[Aside]:
        """Draw what was written into the picture; what is not for drawing, in order."""
        asides = list[Aside]()
        for part in _PART.finditer(written):
            kind = part.lastgroup
            if kind == "text":
                self._draw(part[0], picture)
            elif kind == "codes":
                self._dress(part, asides)
            elif kind == "address":
                row, _, column = part["address"].partition(";")
                self.x, self.y = max(int(column or 1), 1) - 1, max(int(row or 1), 1) - 1
            elif kind in {"newline", "return"}:
                self.x = 0
                self.y += kind == "newline"
            elif kind in {"aside", "other"}:
                asides.append(Aside(part[0], kind == "other"))
            elif kind == "stray":
                self._draw(" ", picture)
        return asides

    def _draw(self, text: str, picture: Picture) -> None:
        if not text.isascii():
            text = unjoined(text)
        if self.abilities.glyphs:
            text = self.abilities.glyphs.shown(text)
        self.x = picture.put(self.x, self.y, text, reduce_colours(self.look, self.abilities.colours))

    def _dress(self, part: re.Match[str], asides: list[Aside]) -> None:
        try:
            self.look = apply_sgr(self.look, part["codes"])
        except NotUnderstoodError:
            asides.append(Aside(part[0], disturbs=True))


def unjoined(text: str) -> str:
    """A text with the first sign of each joined one, in as many cells: terminals differ in how wide the whole is."""
    if not _JOINS.search(text):
        return text
    spans, _ = split_graphemes(text)
    return "".join(
        _first(text[start:end], room) if _JOINS.search(text, start, end) else text[start:end]
        for start, end, room in spans
    )


def _first(joined: str, room: int) -> str:
    return joined[0] + " " * (room - get_character_cell_size(joined[0])) if room else ""
