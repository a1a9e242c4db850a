"""A scrolling page of boxes with headings, drawn by line: one widget, whatever the number of boxes."""

from collections.abc import Sequence
from typing import ClassVar

from textual.binding import BindingType
from textual.geometry import Region
from textual.strip import Strip

from domain.place import Place
from tui.keys import bindings
from tui.widgets.box_entry import MARKS, BoxEntry, Host
from tui.widgets.box_view import BoxView, Owner, is_same, owner_of
from tui.widgets.page_layout import Part, box_lines, entry_line, heading_line

_AHEAD = 2
"""Lines by which a page that has to move by one or two goes on further: the next boxes are in sight, and their keys move nothing."""


class BoxPage(BoxEntry):
    """The parts of a job that are boxes one below the other."""

    BINDINGS: ClassVar[list[BindingType]] = bindings(
        "page-enter",
        "entry-open",
        "entry-next",
        "entry-previous",
        "entry-down",
        "entry-up",
        "page-part-next",
        "page-part-previous",
        "page-first",
        "page-last",
        *MARKS,
        "entry-empty",
        "entry-give-back",
    )
    DEFAULT_CSS = "BoxPage { height: 1fr; }"

    def __init__(self, host: Host) -> None:
        super().__init__(host)
        self._parts: tuple[Part, ...] = ()
        self._views: list[BoxView] = []
        self._blocks: list[list[Strip]] = []
        """The lines of each heading and each box, in order."""
        self._block_of: list[int] = []
        """The block of each box."""
        self._rows: list[tuple[int, int]] = []
        """Block and line within it, for every line of the page."""
        self._at = 0
        self._top = 0

    @property
    def current(self) -> BoxView | None:
        """The box under the cursor."""
        return self._views[self._at] if self._views else None

    def show(self, parts: Sequence[Part]) -> None:
        """Show the boxes as they stand now; the cursor stays on its box."""
        before, here = self._parts, self.current
        self._parts = tuple(parts)
        if [_shape(part) for part in before] == [_shape(part) for part in self._parts]:
            self._take_changes()
        else:
            self._views = [view for part in self._parts for view in part.boxes]
            self._at = min(self._at, max(len(self._views) - 1, 0))
            self._lay_out()
            if here is not None:
                self.go_to(here.place)
        self.tell()

    def go_to(self, place: Place) -> bool:
        """Put the cursor on a box, or on the first of the section or board; False when it is not on this page."""
        found = [at for at, view in enumerate(self._views) if is_same(view.place, place)]
        found += [at for at, view in enumerate(self._views) if owner_of(view.place) == owner_of(place)]
        if found:
            self._go(found[0])
        return bool(found)

    def entry_changed(self) -> None:
        """Set out the box under the cursor anew."""
        if self._views:
            self._set_out(self._at)
            self._scroll()

    def on_resize(self) -> None:
        """Another width wraps otherwise."""
        self._lay_out()

    def render_line(self, y: int) -> Strip:
        row = self._top + y
        if row >= len(self._rows):
            return Strip.blank(self.size.width)
        block, line = self._rows[row]
        return self._blocks[block][line]

    def go_on(self) -> None:
        self._go_on(1)

    def action_enter(self) -> None:
        """Keep the entry and go on; on a box at rest open its text, and go on where there is none."""
        if self.entry is None and self.current and self.current.typed:
            self.open()
        else:
            self.action_next()

    def action_next(self) -> None:
        """Keep the entry and go to the next box that is needed or holds something, unless what was typed cannot stand."""
        if self.settle():
            self.go_on()

    def action_previous(self) -> None:
        """Keep the entry and go back to such a box, unless what was typed cannot stand."""
        if self.settle():
            self._go_on(-1)

    def action_down(self) -> None:
        """Keep the entry and go down."""
        self._leave_for(self._at + 1)

    def action_up(self) -> None:
        """Keep the entry and go up."""
        self._leave_for(self._at - 1)

    def action_first(self) -> None:
        """Go to the first box."""
        self._leave_for(0)

    def action_last(self) -> None:
        """Go to the last box."""
        self._leave_for(len(self._views) - 1)

    def action_part_next(self) -> None:
        """Go to the first box under the next heading."""
        self._leave_for_part(next((first for first in self._firsts() if first > self._at), len(self._views) - 1))

    def action_part_previous(self) -> None:
        """Go to the first box under this heading, or the one before."""
        self._leave_for_part(max((first for first in self._firsts() if first < self._at), default=0))

    def _leave_for_part(self, index: int) -> None:
        if self.commit():
            self._go(index)
            self._scroll(to_top=True)

    def _leave_for(self, index: int) -> None:
        if self.commit():
            self._go(index)

    def _go_on(self, step: int) -> None:
        ahead = range(self._at + step, len(self._views) if step > 0 else -1, step)
        self._go(next((at for at in ahead if self._views[at].is_stop), self._at))

    def _firsts(self) -> list[int]:
        firsts, first = list[int](), 0
        for part in self._parts:
            firsts.append(first)
            first += len(part.boxes)
        return firsts

    def _go(self, index: int) -> None:
        before, self._at = self._at, min(max(index, 0), max(len(self._views) - 1, 0))
        if self._views:
            self._set_out(before)
            self._set_out(self._at)
            self._scroll()
        self.tell()

    def _take_changes(self) -> None:
        views = [view for part in self._parts for view in part.boxes]
        changed = [index for index, (old, new) in enumerate(zip(self._views, views, strict=True)) if old != new]
        self._views = views
        for index in changed:
            self._set_out(index)

    def _lay_out(self) -> None:
        width = self.size.width
        self._blocks, self._block_of = [], []
        for part in self._parts:
            self._blocks.append([heading_line(part.title, width)])
            for _ in part.boxes:
                self._block_of.append(len(self._blocks))
                self._blocks.append(self._lines(len(self._block_of) - 1))
        self._number_rows()
        self._scroll()

    def _lines(self, index: int) -> list[Strip]:
        at = index == self._at
        return box_lines(self._views[index], self.size.width, at=at, entry=self.entry if at else None)

    def _set_out(self, index: int) -> None:
        block = self._block_of[index]
        before, after = self._blocks[block], self._lines(index)
        self._blocks[block] = after
        if len(before) != len(after):
            self._number_rows()
            return
        first = self._starts[block] - self._top
        for line, (old, new) in enumerate(zip(before, after, strict=True)):
            if old != new:
                self.refresh(Region(0, first + line, self.size.width, 1))

    def _number_rows(self) -> None:
        self._starts: list[int] = []
        self._rows = []
        for block, lines in enumerate(self._blocks):
            self._starts.append(len(self._rows))
            self._rows += [(block, line) for line in range(len(lines))]
        self.refresh()

    def _scroll(self, *, to_top: bool = False) -> None:
        """Bring the box under the cursor into sight, with its heading where it is the first of its part."""
        height = self.size.height
        if not self._views or not height:
            return
        block = self._block_of[self._at]
        start = self._starts[block]
        first, last = start, start + len(self._blocks[block]) - 1
        if self._at in self._firsts():
            first -= 1
        if last - first >= height:
            line = entry_line(self.entry, self.size.width) if self.entry else 0
            first = last = start + line
        top = self._top
        if to_top:
            top = first
        elif first < top:
            top = min(first, top - 1 - _AHEAD)
        elif last >= top + height:
            needed = last - height + 1
            top = min(max(needed, min(needed, top + 2) + _AHEAD), first)
        top = max(min(top, len(self._rows) - height), 0)
        if top != self._top:
            self._top = top
            self.refresh()


def _shape(part: Part) -> tuple[str, list[tuple[Owner, str]]]:
    return part.title, [(owner_of(view.place), view.place.box) for view in part.boxes]
