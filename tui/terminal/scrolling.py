"""Finds rows that only moved up or down, so that the terminal can move them itself."""

from dataclasses import dataclass

from tui.terminal.screen_buffer import BLANK, Picture, Row

_LEAST_CHANGED = 3
_COST = 30
"""About what moving rows costs in bytes; so much must be saved at least."""


@dataclass(frozen=True, slots=True)
class Scroll:
    """The rows from `top` to `bottom` move up by `by`, or down when that is negative."""

    top: int
    bottom: int
    by: int


def scroll_between(shown: Picture, wanted: Picture) -> Scroll | None:
    """The move of rows that saves most, if any saves enough."""
    changed = [y for y, (old, new) in enumerate(zip(shown.rows, wanted.rows, strict=True)) if old != new]
    if len(changed) < _LEAST_CHANGED:
        return None
    best, most = None, _COST
    for by in _moves(shown, wanted, changed):
        scroll, saved = _best_stretch(shown, wanted, by)
        if scroll and saved > most:
            best, most = scroll, saved
    return best


def moved(picture: Picture, scroll: Scroll) -> None:
    """Do in the picture what the terminal does."""
    rows = picture.rows[scroll.top : scroll.bottom + 1]
    blanks: list[Row] = [[BLANK] * picture.width for _ in range(abs(scroll.by))]
    rows = rows[scroll.by :] + blanks if scroll.by > 0 else blanks + rows[: scroll.by]
    picture.rows[scroll.top : scroll.bottom + 1] = rows


def _moves(shown: Picture, wanted: Picture, changed: list[int]) -> set[int]:
    """How far rows have moved that stand elsewhere word for word."""
    blank: Row = [BLANK] * shown.width
    before = {tuple(row): y for y, row in enumerate(shown.rows) if row != blank}
    return {before[row] - y for y in changed if (row := tuple(wanted.rows[y])) in before} - {0}


def _best_stretch(shown: Picture, wanted: Picture, by: int) -> tuple[Scroll | None, int]:
    """The stretch of rows for which moving by so much saves most."""
    height = shown.height
    best, most = None, 0
    start, saved = 0, 0
    rows = range(height - by) if by > 0 else range(-by, height)
    for y in rows:
        new = wanted.rows[y]
        if saved <= 0:
            start, saved = y, 0
        saved += _differing(shown.rows[y], new) - _differing(shown.rows[y + by], new)
        top, bottom = (start, y + by) if by > 0 else (start + by, y)
        # The rows that scroll in are blank at first.
        laid_bare = range(y + 1, bottom + 1) if by > 0 else range(top, start)
        whole = saved + sum(_saved_by_blank(shown.rows[row], wanted.rows[row]) for row in laid_bare)
        if whole > most:
            best, most = Scroll(top, bottom, by), whole
    return best, most


def _differing(old: Row, new: Row) -> int:
    if old == new:
        return 0
    return 6 + sum(was is not now and was != now for was, now in zip(old, new, strict=True))


def _saved_by_blank(old: Row, new: Row) -> int:
    filled = sum(cell != BLANK for cell in new)
    return _differing(old, new) - (filled + 6 if filled else 0)
