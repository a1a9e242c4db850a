"""A schedule with a line for each circuit, drawn by line: only the cells that change are painted anew.

Kept by hand: the framework's own table paints far more than that for a key, and knows nothing of entries kept cell by cell.
"""

from collections.abc import Sequence
from typing import ClassVar, Protocol

from textual.binding import BindingType
from textual.geometry import Region
from textual.strip import Strip

from domain.place import Place
from tui.keys import bindings
from tui.widgets.box_entry import MARKS, BoxEntry, Host
from tui.widgets.box_view import BoxView
from tui.widgets.grid_columns import GridColumn, groups_of
from tui.widgets.grid_layout import HEADINGS, GridLayout
from tui.widgets.pasted import pasted_lines

Row = tuple[BoxView, ...]
"""The boxes of one circuit, one for each column."""


class ScheduleHost(Protocol):
    """What a schedule asks for beyond what boxes do."""

    @property
    def goes_across(self) -> bool:
        """Enter goes on across the circuit, not down the column."""
        ...

    def turn_way(self) -> None:
        """Turn the way Enter goes on, on every schedule."""
        ...

    def fill_block(self, rows: Sequence[Sequence[BoxView]], texts: Sequence[str]) -> None:
        """Fill boxes below and beside one another with pasted lines, after a question."""
        ...


class ScheduleGrid(BoxEntry):
    """Circuits down, boxes across. The first columns stay in sight; the others are paged by whole groups."""

    BINDINGS: ClassVar[list[BindingType]] = bindings(
        "grid-enter",
        "grid-way",
        "entry-open",
        "entry-next",
        "entry-previous",
        "entry-down",
        "entry-up",
        "grid-right",
        "grid-left",
        "grid-first",
        "grid-last",
        "grid-rows-down",
        "grid-rows-up",
        "grid-top",
        "grid-bottom",
        *MARKS,
        "entry-empty",
        "entry-give-back",
    )
    DEFAULT_CSS = "ScheduleGrid { height: 1fr; }"

    def __init__(
        self, host: Host, schedule: ScheduleHost, columns: Sequence[GridColumn], *, fixed: int, first_stop: int
    ) -> None:
        super().__init__(host)
        self._schedule = schedule
        self._columns = tuple(columns)
        self._fixed = fixed
        self._first_stop = first_stop
        """The first column the cursor goes to; those before it are only shown."""
        self._layout = GridLayout.of(self._columns, fixed, 80)
        self._rows: tuple[Row, ...] = ()
        self._title = ""
        self._row = 0
        self._column = first_stop
        self._top = 0
        self._page = 0
        self._drawn: dict[int, Strip] = {}

    @property
    def current(self) -> BoxView | None:
        """The box under the cursor."""
        return self._rows[self._row][self._column] if self._rows else None

    @property
    def group_here(self) -> tuple[str, tuple[str, ...]]:
        """Title of the group of columns the cursor is in, and the boxes in it."""
        groups = groups_of(self._columns, self._fixed)
        group = next((each for each in groups if self._column in each.columns), groups[0])
        return group.title, tuple(self._columns[at].name for at in group.columns)

    @property
    def sideways(self) -> bool:
        """Typed over, Left and Right go on to the next cell; in a text opened for changing they move in it."""
        return self.entry is not None and not self.entry.fresh

    def show(self, rows: Sequence[Row], title: str) -> None:
        """Show the circuits as they stand now; the cursor stays on its circuit and column."""
        here = self.current
        before, self._rows = self._rows, tuple(rows)
        if title != self._title:
            self._title = title
            self._repaint(0)
        if len(before) != len(self._rows):
            self._repaint_all()
        for row, (old, new) in enumerate(zip(before, self._rows, strict=False)):
            if old != new:
                self._repaint_cells(row, [at for at, (was, now) in enumerate(zip(old, new, strict=True)) if was != now])
        if here is None and self._rows:
            needed = (at for at in range(self._first_stop, len(self._columns)) if self._rows[0][at].needed)
            self._column = next(needed, self._first_stop)
        self._row = self._row_of(here.place) if here else 0
        self._bring_into_sight()
        self.tell()

    def go_to(self, place: Place) -> None:
        """Put the cursor on a box of a circuit, or on a circuit where the place names no box of this schedule."""
        names = [column.name for column in self._columns]
        at = names.index(place.box) if place.box in names else self._first_stop
        self._go(self._row_of(place), at)

    def entry_changed(self) -> None:
        """Draw the cell under the cursor anew."""
        if self._rows:
            self._repaint_cells(self._row, [self._column])

    def take_column(self, text: str) -> bool:
        texts = pasted_lines(text)
        if (len(texts) < 2 and "\t" not in text) or self.entry is not None or not self._rows:
            return False
        self._schedule.fill_block([row[self._column :] for row in self._rows[self._row :]], texts)
        return True

    def on_resize(self) -> None:
        """More or fewer columns are in sight."""
        self._layout = GridLayout.of(self._columns, self._fixed, self.size.width)
        self._repaint_all()
        self._bring_into_sight()

    def render_line(self, y: int) -> Strip:
        width = self.size.width
        if y < HEADINGS:
            way = "Enter across" if self._schedule.goes_across else "Enter down"
            return self._layout.heading(y, self._page, width, title=self._title, way=way)
        row = self._top + y - HEADINGS
        if row >= len(self._rows):
            return Strip.blank(width)
        if row not in self._drawn:
            at = self._column if row == self._row else None
            self._drawn[row] = self._layout.row(self._rows[row], self._page, width, at=at, entry=self.entry)
        return self._drawn[row]

    def go_on(self) -> None:
        self._go_on(1, across=self._schedule.goes_across)

    def action_enter(self) -> None:
        """Keep the entry and go on the way that is set, to the next box that is needed or holds something."""
        if self.settle():
            self.go_on()

    def action_way(self) -> None:
        """Turn the way Enter goes on: across the circuit, or down the column."""
        self._schedule.turn_way()
        self._repaint(2)

    def action_next(self) -> None:
        """Keep the entry and go right to the next box that is needed."""
        if self.settle():
            self._go_on(1, across=True)

    def action_previous(self) -> None:
        """Keep the entry and go left to the box that is needed before this one."""
        if self.settle():
            self._go_on(-1, across=True)

    def action_right(self) -> None:
        self._leave_for(self._row, self._column + 1)

    def action_left(self) -> None:
        self._leave_for(self._row, self._column - 1)

    def action_down(self) -> None:
        self._leave_for(self._row + 1, self._column)

    def action_up(self) -> None:
        self._leave_for(self._row - 1, self._column)

    def action_first(self) -> None:
        self._leave_for(self._row, self._first_stop)

    def action_last(self) -> None:
        self._leave_for(self._row, len(self._columns) - 1)

    def action_rows_down(self) -> None:
        self._leave_for(self._row + self._body, self._column)

    def action_rows_up(self) -> None:
        self._leave_for(self._row - self._body, self._column)

    def action_top(self) -> None:
        self._leave_for(0, self._first_stop)

    def action_bottom(self) -> None:
        self._leave_for(len(self._rows) - 1, len(self._columns) - 1)

    @property
    def above(self) -> BoxView | None:
        """The same box of the circuit above."""
        return self._rows[self._row - 1][self._column] if self._rows and self._row else None

    @property
    def _body(self) -> int:
        return max(self.size.height - HEADINGS, 1)

    def _row_of(self, place: Place) -> int:
        circuits = [row[0].place.circuit for row in self._rows]
        return circuits.index(place.circuit) if place.circuit in circuits else min(self._row, max(len(circuits) - 1, 0))

    def _leave_for(self, row: int, column: int) -> None:
        if self.commit():
            self._go(row, column)

    def _go_on(self, step: int, *, across: bool) -> None:
        stops = range(self._first_stop, len(self._columns))
        order = [
            (row, column)
            for outer in (range(len(self._rows)) if across else stops)
            for inner in (stops if across else range(len(self._rows)))
            for row, column in [(outer, inner) if across else (inner, outer)]
            if self._rows[row][column].is_stop or (row, column) == (self._row, self._column)
        ]
        if order:
            at = order.index((self._row, self._column)) + step
            self._go(*order[min(max(at, 0), len(order) - 1)])

    def _go(self, row: int, column: int) -> None:
        was = self._row, self._column
        self._row = min(max(row, 0), max(len(self._rows) - 1, 0))
        self._column = min(max(column, self._first_stop), len(self._columns) - 1)
        if was != (self._row, self._column):
            self._repaint_cells(was[0], [was[1]])
            self._repaint_cells(self._row, [self._column])
            self._bring_into_sight()
        self.tell()

    def _bring_into_sight(self) -> None:
        page = self._page if self._column < self._fixed else self._layout.page_of(self._column)
        page = min(page, max(len(self._layout.pages) - 1, 0))
        top = min(max(self._top, self._row - self._body + 1), self._row, max(len(self._rows) - self._body, 0))
        if page != self._page:
            self._page = page
            self._repaint_all()
        if top != self._top:
            self._top = top
            self.refresh()

    def _repaint_all(self) -> None:
        self._drawn.clear()
        self.refresh()

    def _repaint(self, line: int) -> None:
        self.refresh(Region(0, line, self.size.width, 1))

    def _repaint_cells(self, row: int, columns: list[int]) -> None:
        self._drawn.pop(row, None)
        y = row - self._top + HEADINGS
        shown = self._layout.in_sight(self._page)
        for column in columns:
            if column in shown and HEADINGS <= y < self.size.height:
                x, width = self._layout.span(column, self._page)
                self.refresh(Region(x, y, width, 1))
