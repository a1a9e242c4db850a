"""The shortest way of the cursor from box to box, as hands find it that know the program."""

from collections import deque
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple, TypeVar

At = TypeVar("At")
Moves = Callable[[At], Iterator[tuple[str, At]]]


class Cell(NamedTuple):
    """Where the cursor of a schedule is, and which way Enter goes on."""

    row: int
    column: int
    across: bool = True


@dataclass(frozen=True, slots=True)
class Schedule:
    """A schedule as hands know it: which boxes Enter stops at, line by line."""

    stops: Sequence[Sequence[bool]]
    body: int
    """Circuits in sight at once."""

    def moves(self, at: Cell) -> Iterator[tuple[str, Cell]]:
        """Every key that moves the cursor, with where it leads."""
        row, column, across = at
        yield "enter", self.on(at, across=across)
        yield "tab", self.on(at, across=True)
        for key, (down, right) in _ARROWS.items():
            yield key, self._cell(row + down, column + right, across)
        yield "pagedown", self._cell(row + self.body, column, across)
        yield "pageup", self._cell(row - self.body, column, across)
        yield "home", self._cell(row, 0, across)
        yield "end", self._cell(row, 999, across)
        yield "ctrl+home", self._cell(0, 0, across)
        yield "ctrl+end", self._cell(999, 999, across)
        yield "ctrl+t", Cell(row, column, not across)

    def _cell(self, row: int, column: int, across: bool) -> Cell:
        return Cell(min(max(row, 0), len(self.stops) - 1), min(max(column, 0), len(self.stops[0]) - 1), across)

    def on(self, at: Cell, *, across: bool | None = None) -> Cell:
        """Where Enter leads, the way it goes on now or a given way."""
        across = at.across if across is None else across
        rows, columns = range(len(self.stops)), range(len(self.stops[0]))
        order = [(row, column) for row in rows for column in columns]
        if not across:
            order = [(row, column) for column in columns for row in rows]
        order = [cell for cell in order if self.stops[cell[0]][cell[1]] or cell == at[:2]]
        to = order[min(order.index((at.row, at.column)) + 1, len(order) - 1)]
        return Cell(*to, at.across)


_ARROWS = {"down": (1, 0), "up": (-1, 0), "right": (0, 1), "left": (0, -1)}


@dataclass(frozen=True, slots=True)
class Page:
    """A page of boxes: which of them Tab stops at, and the first under each heading."""

    stops: Sequence[bool]
    firsts: Sequence[int]

    def moves(self, at: int) -> Iterator[tuple[str, int]]:
        """Every key that moves the cursor, with where it leads."""
        last = len(self.stops) - 1
        yield "tab", self.after(at)
        yield "down", min(at + 1, last)
        yield "up", max(at - 1, 0)
        yield "pagedown", next((first for first in self.firsts if first > at), last)
        yield "pageup", max((first for first in self.firsts if first < at), default=0)

    def after(self, at: int) -> int:
        """Where Tab leads."""
        return next((to for to in range(at + 1, len(self.stops)) if self.stops[to]), at)


def way(moves: Moves[At], start: At, arrives: Callable[[At], bool]) -> tuple[list[str], At]:
    """The fewest keys, at least one, that lead from a place to one that will do; of ways as short the first that is told."""
    ways: dict[At, list[str]] = {}
    waiting = deque[tuple[list[str], At]]([([], start)])
    while waiting:
        keys, at = waiting.popleft()
        for key, to in moves(at):
            if arrives(to):
                return [*keys, key], to
            if to not in ways:
                ways[to] = [*keys, key]
                waiting.append((ways[to], to))
    raise AssertionError(f"no way from {start}")
