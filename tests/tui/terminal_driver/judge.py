"""A terminal emulator as judge of what was sent: its picture, cell by cell with every attribute."""

from typing import NamedTuple

import pyte
from pyte.screens import Char
from wcwidth import wcwidth

from tests.tui.emulator import Emulator


class Judge(Emulator):
    """As terminals do, blanks the other half when half of a wide letter is written over."""

    def draw(self, data: str) -> None:
        for letter in data:
            super().draw(letter)
            self._blank_lone_halves()

    def _blank_lone_halves(self) -> None:
        line = self.buffer[self.cursor.y]
        for x in range(self.columns):
            is_second = line[x].data == ""
            other = line[x - 1 if is_second else x + 1].data
            if (is_second and not _is_wide(other)) or (_is_wide(line[x].data) and other):
                line[x] = line[x]._replace(data=" ")


def _is_wide(text: str) -> bool:
    return bool(text) and wcwidth(text[0]) == 2


class Shown(NamedTuple):
    """A screen as a person sees it."""

    cells: list[list[Char]]
    cursor: tuple[int, int] | None


def shown(screen: pyte.Screen) -> Shown:
    """What stands on a screen."""
    cells = [[screen.buffer[y][x] for x in range(screen.columns)] for y in range(screen.lines)]
    return Shown(cells, None if screen.cursor.hidden else (screen.cursor.x, screen.cursor.y))
