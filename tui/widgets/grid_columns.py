"""The columns of a schedule: their groups, their widths, and which of them share the screen."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from rich.cells import cell_len

from domain.job.box import Box, BoxKind

_GROUP_BEGINS: Mapping[str, str] = {
    "shape": "Circuit",
    "live_csa": "Conductors",
    "device_standard": "Protective device",
    "rcd_standard": "RCD",
    "afdd_standard": "AFDD",
    "feeds": "Use",
    "design_current": "Design",
    "ring_r1": "Ring, end to end",
    "r1_r2": "Continuity",
    "test_voltage": "Insulation",
    "polarity": "",
    "zs": "Loop",
    "rcd_time": "RCD",
    "afdd_button": "",
    "remarks": "",
}
"""The box each group of columns begins with. A box not named here goes on with the group before it."""

_IN_WORDS: Mapping[str, int] = {"description": 40, "remarks": 60}
"""Columns of words, and the cells they take where there is room."""
_AT_LEAST: Mapping[str, int] = {"remarks": 17}
"""Less than on paper, so that they share a page with the readings before them at 80 columns."""


@dataclass(frozen=True, slots=True)
class GridColumn:
    """One column: the box it stands for, and the cells its text takes. A sign takes one more."""

    name: str
    box: Box
    width: int
    gap: int = 0
    """Cells left blank before the text."""

    @property
    def cell(self) -> int:
        """Text and sign."""
        return self.width + 1

    @property
    def whole(self) -> int:
        """The gap, text and sign."""
        return self.gap + self.cell

    @property
    def is_figures(self) -> bool:
        """Figures stand to the right, one under the other."""
        return self.box.kind in {BoxKind.NUMBER, BoxKind.READING}


def column_for(name: str, box: Box, width: int = 0) -> GridColumn:
    """The column of a box, wide enough for its heading."""
    return GridColumn(name, box, width or max(_AT_LEAST.get(name, box.width), cell_len(box.heading)))


def set_apart(columns: Sequence[GridColumn]) -> tuple[GridColumn, ...]:
    """The columns, a blank before those that begin on the left just where figures and their sign end."""
    return tuple(
        replace(column, gap=1) if at and columns[at - 1].is_figures and not column.is_figures else column
        for at, column in enumerate(columns)
    )


@dataclass(frozen=True, slots=True)
class ColumnGroup:
    """Columns that belong together and are paged together."""

    title: str
    columns: tuple[int, ...]
    """Their places in the schedule."""


def groups_of(columns: Sequence[GridColumn], first: int = 0) -> list[ColumnGroup]:
    """The groups of the columns from `first` on."""
    groups: list[ColumnGroup] = []
    for at in range(first, len(columns)):
        title = _GROUP_BEGINS.get(columns[at].name)
        if title is not None or not groups:
            groups.append(ColumnGroup(title or "", (at,)))
        else:
            last = groups[-1]
            groups[-1] = ColumnGroup(last.title, (*last.columns, at))
    return groups


def pages_of(columns: Sequence[GridColumn], groups: Sequence[ColumnGroup], room: int) -> list[tuple[int, ...]]:
    """Which columns are in sight together: whole groups, as many as there is room for."""
    pages: list[tuple[int, ...]] = [()]
    for group in groups:
        for part in _pieces(columns, group.columns, room):
            if pages[-1] and _width(columns, (*pages[-1], *part)) > room:
                pages.append(())
            pages[-1] = (*pages[-1], *part)
    return [page for page in pages if page]


def widened(columns: Sequence[GridColumn], pages: Sequence[tuple[int, ...]], room: int) -> tuple[GridColumn, ...]:
    """The columns, those of a text in words with what no page needs: first the description, then remarks on their page."""
    wide = list(columns)
    for at, column in enumerate(columns):
        holding = [page for page in pages if at in page] or pages
        spare = room - max((_width(wide, page) for page in holding), default=room)
        most = _IN_WORDS.get(column.name, 0)
        if column.name == "description":
            room -= (more := max(min(spare, most - column.width), 0))
        else:
            more = max(min(spare, most - column.width), 0)
        wide[at] = replace(column, width=column.width + more)
    return tuple(wide)


def _pieces(columns: Sequence[GridColumn], group: tuple[int, ...], room: int) -> list[tuple[int, ...]]:
    """The group whole, or column by column where it is wider than the room there is."""
    return [group] if _width(columns, group) <= room else [(at,) for at in group]


def _width(columns: Sequence[GridColumn], places: Sequence[int]) -> int:
    return sum(columns[at].whole for at in places)
