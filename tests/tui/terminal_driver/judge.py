"""A terminal emulator as judge of what was sent: its picture, cell by cell with every attribute."""

from typing import NamedTuple

import pyte
from pyte.screens import Char


class Judge(pyte.Screen):
    """As terminals do, blanks the other half when half of a wide letter is written over; counts dim text too."""

    def draw(self, data: str) -> None:
        for letter in data:
            if self.cursor.x < self.columns:
                self._blank_other_half(self.cursor.x)
                at = self.cursor.x
            super().draw(letter)
            if (self.cursor.x - at == 2 and self.cursor.x < self.columns and self._data(self.cursor.x) == "") or (
                self.cursor.x < self.columns and self._data(self.cursor.x) == "" and self.cursor.x - at == 1
            ):
                self._blank(self.cursor.x)

    def _blank_other_half(self, x: int) -> None:
        if self._data(x) == "" and x:
            self._blank(x - 1)

    def _data(self, x: int) -> str:
        return self.buffer[self.cursor.y][x].data

    def _blank(self, x: int) -> None:
        line = self.buffer[self.cursor.y]
        line[x] = line[x]._replace(data=" ")


class Shown(NamedTuple):
    """A screen as a person sees it."""

    cells: list[list[Char]]
    cursor: tuple[int, int] | None


def shown(screen: pyte.Screen) -> Shown:
    """What stands on a screen."""
    cells = [[screen.buffer[y][x] for x in range(screen.columns)] for y in range(screen.lines)]
    return Shown(cells, None if screen.cursor.hidden else (screen.cursor.x, screen.cursor.y))
