"""How a schedule is set out: which columns are in sight and where, the heading lines, and the line of a circuit."""

from collections.abc import Sequence
from dataclasses import dataclass

from rich.cells import cell_len
from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip

from tui import theme
from tui.widgets.box_view import BoxView
from tui.widgets.grid_columns import ColumnGroup, GridColumn, groups_of, pages_of, set_apart, widened
from tui.widgets.open_entry import OpenEntry, painted
from tui.widgets.page_layout import style_of
from tui.widgets.wrapping import fitted, padded

HEADINGS = 3
"""Lines above the circuits."""


@dataclass(frozen=True, slots=True)
class GridLayout:
    """The columns of a schedule on a screen of some width. The first `fixed` ones are always in sight."""

    columns: tuple[GridColumn, ...]
    fixed: int
    groups: tuple[ColumnGroup, ...]
    pages: tuple[tuple[int, ...], ...]

    @classmethod
    def of(cls, columns: Sequence[GridColumn], fixed: int, width: int) -> "GridLayout":
        """Set columns out over a width."""
        columns = set_apart(columns)
        groups = groups_of(columns, fixed)
        room = width - sum(column.whole for column in columns[:fixed])
        pages = tuple(pages_of(columns, groups, room))
        return cls(widened(columns, pages, room), fixed, tuple(groups), pages)

    def page_of(self, column: int) -> int:
        """The page a column is on; the first for those always in sight."""
        return next((number for number, page in enumerate(self.pages) if column in page), 0)

    def in_sight(self, page: int) -> tuple[int, ...]:
        """The columns shown, from left to right."""
        return (*range(self.fixed), *(self.pages[page] if self.pages else ()))

    def span(self, column: int, page: int) -> tuple[int, int]:
        """First cell and width of a column."""
        shown = self.in_sight(page)
        before = shown[: shown.index(column)]
        return sum(self.columns[at].whole for at in before), self.columns[column].whole

    def heading(self, line: int, page: int, width: int, *, title: str, way: str) -> Strip:
        """One of the three lines above the circuits: groups, headings, units."""
        if line == 0:
            return _strip([Segment(padded(title, self._fixed_width), theme.HEAD), *self._titles(page)], width)
        if line == 1:
            cells = [(self.columns[at].box.heading, self.columns[at]) for at in self.in_sight(page)]
            return _strip([Segment(_headed(text, column), theme.HEAD) for text, column in cells], width)
        units = [Segment(_headed(self.columns[at].box.unit, self.columns[at])) for at in self.in_sight(page)]
        words = f"{way}, {page + 1}/{len(self.pages)}" if len(self.pages) > 1 else way
        return _strip([Segment(padded(words, self._fixed_width)), *units[self.fixed :]], width, theme.QUIET)

    def row(
        self, cells: Sequence[BoxView], page: int, width: int, *, at: int | None, entry: OpenEntry | None = None
    ) -> Strip:
        """The line of a circuit; `at` is the column of the cursor when it is on this line."""
        segments: list[Segment] = []
        for place in self.in_sight(page):
            column, view = self.columns[place], cells[place]
            segments += [Segment(" " * column.gap)] if column.gap else []
            if place != at:
                segments.append(Segment(_shown(view, column), _style(view)))
            elif entry is None:
                segments.append(Segment(_shown(view, column), theme.CURSOR))
            else:
                segments += _typed(entry, column)
        return _strip(segments, width)

    @property
    def _fixed_width(self) -> int:
        return sum(column.whole for column in self.columns[: self.fixed])

    def _titles(self, page: int) -> list[Segment]:
        shown = self.in_sight(page)[self.fixed :]
        segments: list[Segment] = []
        for group in self.groups:
            room = sum(self.columns[at].whole for at in group.columns if at in shown)
            if room:
                segments.append(Segment(padded(fitted(group.title, room - 1), room), theme.HEAD))
        return segments


def _shown(view: BoxView, column: GridColumn) -> str:
    return _aligned(view.at_rest, view.sign, column)


def _headed(text: str, column: GridColumn) -> str:
    return " " * column.gap + _aligned(text, "", column)


def _aligned(text: str, sign: str, column: GridColumn) -> str:
    kept = fitted(text, column.width)
    blanks = " " * (column.width - cell_len(kept))
    return f"{blanks}{kept}{sign or ' '}" if column.is_figures else f"{kept}{sign or ' '}{blanks}"


def _style(view: BoxView) -> Style:
    return style_of(view.sign) if view.shown else theme.QUIET


def _typed(entry: OpenEntry, column: GridColumn) -> list[Segment]:
    start = max(entry.editor.cursor - column.width, 0)
    segments = painted(entry.editor, start, start + column.cell)
    left = column.cell - sum(segment.cell_length for segment in segments)
    return [*segments, Segment(" " * left, theme.EDITED)] if left > 0 else segments


def _strip(segments: list[Segment], width: int, style: Style | None = None) -> Strip:
    strip = Strip(segments).adjust_cell_length(width).simplify()
    return strip.apply_style(style) if style else strip
