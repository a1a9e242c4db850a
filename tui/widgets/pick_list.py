"""A list with a cursor, drawn by line: only the rows that change are painted again."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual.binding import BindingType
from textual.geometry import Region, Size
from textual.message import Message
from textual.reactive import var
from textual.strip import Strip
from textual.widget import Widget

from tui import theme
from tui.keys import bindings
from tui.widgets.in_sight import lines_in_sight, repaint_changed
from tui.widgets.list_columns import Shape, column_widths
from tui.widgets.wrapping import Span, padded, wrapped


@dataclass(frozen=True, slots=True)
class ListCell:
    """A part of a row. A width of 0 takes what the others leave, and wraps there.

    With `least` it takes so much and, where there is room, what the texts of its column need; it wraps too.
    """

    text: str
    style: Style = theme.PLAIN
    width: int = 0
    least: int = 0


@dataclass(frozen=True, slots=True)
class ListRow:
    """One row. A heading is passed over by the cursor."""

    id: str
    cells: tuple[ListCell, ...]
    heading: bool = False


class PickList(Widget, can_focus=True):
    """Rows under one another; the row under the cursor is marked with > and reversed while the list has the focus."""

    BINDINGS: ClassVar[list[BindingType]] = bindings(
        "row-up", "row-down", "rows-up", "rows-down", "row-first", "row-last"
    )

    @dataclass
    class Moved(Message):
        """The cursor came to another row."""

        listed: "PickList"
        row: ListRow | None

        @property
        def control(self) -> "PickList":
            """The list it happened in."""
            return self.listed

    @dataclass
    class LeftBy(Message):
        """The cursor was moved past an end: -1 upwards, 1 downwards."""

        listed: "PickList"
        way: int

        @property
        def control(self) -> "PickList":
            """The list it happened in."""
            return self.listed

    rows: var[tuple[ListRow, ...]] = var((), init=False)
    """What is listed."""
    cursor: var[int] = var(-1, init=False)
    """The row under the cursor; -1 when there is none to be on."""

    def __init__(self, *, classes: str = "", lines_a_row: int = 1, empty: str = "") -> None:
        super().__init__(classes=classes)
        self._lines_a_row = lines_a_row
        self.empty = empty
        """What is said where nothing is listed."""
        self._top = 0
        self._drawn: list[tuple[int, Strip]] = []
        self._drawn_for = -1
        self._shared: dict[tuple[Shape, int], list[int]] = {}

    @property
    def at(self) -> ListRow | None:
        """The row under the cursor."""
        return self.rows[self.cursor] if 0 <= self.cursor < len(self.rows) else None

    @property
    def is_lit(self) -> bool:
        """The row under the cursor is shown reversed."""
        return self.has_focus

    def show(self, rows: Iterable[ListRow], at: str = "") -> None:
        """List other rows; the cursor goes to the row with the id `at`, or stays on the row it was on."""
        here = at or (self.at.id if self.at else "")
        before, shown = self.cursor, lines_in_sight(self)
        self.rows = tuple(rows)
        self._drawn_for = -1
        self._shared.clear()
        found = next((index for index, row in enumerate(self.rows) if row.id == here and not row.heading), -1)
        self.set_reactive(PickList.cursor, found if found >= 0 else self._nearest(max(before, 0)))
        self._follow()
        repaint_changed(self, shown)
        self.post_message(self.Moved(self, self.at))

    def go_to(self, row_id: str) -> bool:
        """Put the cursor on a row; False when it is not listed."""
        found = next((index for index, row in enumerate(self.rows) if row.id == row_id and not row.heading), -1)
        if found >= 0:
            self.cursor = found
        return found >= 0

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002
        return max(sum(len(self._drawn_row(row, width)) for row in self.rows), 1)

    def watch_cursor(self, before: int, now: int) -> None:
        if not self._follow():
            self._repaint(before)
            self._repaint(now)
        self.post_message(self.Moved(self, self.at))

    def on_resize(self) -> None:
        self._follow()

    def on_focus(self) -> None:
        self._repaint(self.cursor)

    def on_blur(self) -> None:
        self._repaint(self.cursor)

    def action_move(self, by: int) -> None:
        """One row up or down, over headings."""
        index = self.cursor + by
        while 0 <= index < len(self.rows) and self.rows[index].heading:
            index += by
        if 0 <= index < len(self.rows):
            self.cursor = index
        else:
            self._show_end(by)
            self.post_message(self.LeftBy(self, by))

    def action_page(self, by: int) -> None:
        """One window up or down."""
        index = self._nearest(min(max(self.cursor + by * max(self.size.height - 1, 1), 0), len(self.rows) - 1))
        if index == self.cursor:
            self._show_end(by)
            self.post_message(self.LeftBy(self, by))
        else:
            self.cursor = index

    def action_ends(self, end: int) -> None:
        """To the first or the last row."""
        self.cursor = self._nearest(0 if end == 0 else len(self.rows) - 1)

    def render_line(self, y: int) -> Strip:
        width = self.size.width
        lines = self._lines()
        if not lines and y == 0:
            return Strip(
                [Segment(" ", theme.COME_TO if self.has_focus else theme.PLAIN), Segment(self.empty, theme.QUIET)]
            ).adjust_cell_length(width)
        if self._top + y >= len(lines):
            return Strip.blank(width)
        row, strip = lines[self._top + y]
        if (sign := self._goes_on(y, len(lines))) and strip.text.endswith(" "):
            strip = Strip([*strip.crop(0, width - 1), Segment(sign, theme.QUIET)])
        if row != self.cursor or not self.is_lit:
            return strip
        first = self._top + y == 0 or lines[self._top + y - 1][0] != row
        text = (">" if first else " ") + strip.text[1:]
        # The terminal's cursor stands at the beginning of the row.
        return Strip([Segment(text, theme.CURSOR if first or not y else theme.LIT)]).adjust_cell_length(width)

    def _goes_on(self, y: int, lines: int) -> str:
        """At the right edge of the first line and the last: there is more above, or below."""
        if y == self.size.height - 1 and self._top + y < lines - 1:
            return theme.SIGN_BELOW
        return theme.SIGN_ABOVE if y == 0 and self._top else ""

    def _nearest(self, index: int) -> int:
        pickable = [at for at, row in enumerate(self.rows) if not row.heading]
        return min(pickable, key=lambda at: (abs(at - index), at), default=-1)

    def _lines(self) -> list[tuple[int, Strip]]:
        if self._drawn_for != self.size.width:
            self._drawn_for = self.size.width
            self._drawn = [
                (index, strip) for index, row in enumerate(self.rows) for strip in self._drawn_row(row, self.size.width)
            ]
        return self._drawn

    def _drawn_row(self, row: ListRow, width: int) -> list[Strip]:
        widths = self._widths(row, width)
        texts = [cell.text.replace("\n", " ") for cell in row.cells]
        spans = [
            self._lines_of(text, room) if not cell.width else [(0, len(text))]
            for cell, text, room in zip(row.cells, texts, widths, strict=True)
        ]
        strips: list[Strip] = []
        for line in range(max(map(len, spans), default=1)):
            segments = [Segment(" ")]
            for cell, text, room, lines in zip(row.cells, texts, widths, spans, strict=True):
                start, end = lines[line] if line < len(lines) else (0, 0)
                style = cell.style if start < end else theme.PLAIN
                segments += [Segment(padded(text[start:end], room), style), Segment(" ")]
            strips.append(Strip(segments).adjust_cell_length(width))
        return strips

    def _lines_of(self, text: str, room: int) -> list[Span]:
        spans = wrapped(text, room)
        if len(spans) > self._lines_a_row:
            spans = [*spans[: self._lines_a_row - 1], (spans[self._lines_a_row - 1][0], len(text))]
        return spans

    def _widths(self, row: ListRow, width: int) -> list[int]:
        """The width of each cell of a row; rows of one shape have theirs in common."""
        shape = _shape(row)
        if (shape, width) not in self._shared:
            alike = [each for each in self.rows if _shape(each) == shape]
            columns = [[each.cells[column].text for each in alike] for column in range(len(shape))]
            self._shared[shape, width] = column_widths(shape, columns, width)
        return self._shared[shape, width]

    def _span(self, index: int) -> tuple[int, int]:
        at = [line for line, (row, _) in enumerate(self._lines()) if row == index]
        return (at[0], at[-1]) if at else (-1, -1)

    def _follow(self) -> bool:
        """Scroll so that the row under the cursor can be seen, with the heading above it; True when it scrolled."""
        first, last = self._span(self.cursor)
        if first < 0 or not self.size.height:
            return self._turn_to(0)
        headings = 0
        while self.cursor - headings > 0 and self.rows[self.cursor - headings - 1].heading:
            headings += 1
        if first - headings < self._top:
            return self._turn_to(first - headings)
        if last >= self._top + self.size.height:
            return self._turn_to(min(self._row_from(last - self.size.height + 1), first))
        return self._turn_to(min(self._top, self._row_from(max(len(self._lines()) - self.size.height, 0))))

    def _row_from(self, top: int) -> int:
        """The first line from here on that a row begins with: no row is split at the top."""
        lines = self._lines()
        while 0 < top < len(lines) and lines[top - 1][0] == lines[top][0]:
            top += 1
        return top

    def _show_end(self, way: int) -> None:
        if way < 0:
            self._turn_to(0)
        elif self.rows and self.rows[-1].heading:
            # What stands under the last row to be on has no cursor to bring it into sight.
            self._turn_to(self._row_from(max(len(self._lines()) - self.size.height, 0)))

    def _turn_to(self, top: int) -> bool:
        if top == self._top:
            return False
        self._top = top
        self.refresh()
        return True

    def _repaint(self, index: int) -> None:
        first, last = self._span(index)
        if first >= 0:
            self.refresh(Region(0, first - self._top, self.size.width, last - first + 1))


def _shape(row: ListRow) -> Shape:
    return tuple((cell.width, cell.least) for cell in row.cells)


class FollowedList(PickList, can_focus=False):
    """A list whose cursor the screen moves, while the focus stays in a line to type into."""

    @property
    def is_lit(self) -> bool:
        """Always: it is the only cursor in a list."""
        return True
