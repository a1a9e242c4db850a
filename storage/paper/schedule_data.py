"""The schedules of a board as data for the templates: details and results broken after the same circuits."""

from dataclasses import replace
from itertools import groupby
from typing import Any, NamedTuple

from domain.sheets.sheet import Row, ScheduleSheet, ValueOrigin
from storage.paper.boxes import box_rows, rows_of_boxes
from storage.paper.expected import Expectations
from storage.paper.letters import is_cut_anywhere
from storage.paper.measure import lines_in, longest_word, text_width
from storage.paper.page import SIDEWAYS
from storage.paper.schedule_widths import (
    BESIDE,
    HEAD_LINE,
    HEAD_SIZE,
    SIZE,
    Widest,
    column_widths,
    head_of,
    lines_upwards,
    widest_values,
)
from storage.paper.sheet_data import Data, cell_data, edges, text_of

_LINE, _LEADING = 8.4, 9.6
"""Points of a row's first line, and of each one more."""
_SET_LINE = 8.32
"""Points that one line comes out at; told to the engine, it need not set every cell once more to find out."""
_SET_OTHERWISE = {ValueOrigin.FAILS, ValueOrigin.BLANK}
"""What stands in a cell with a cross or in a frame; how high that comes out, or other writing, only the engine knows."""
_HAIR = 0.3
"""Points by which texts are reckoned wider than they are, so that what is taken for one line is set in one."""
_TITLE = 25.0
_BOX_TEXT = 9.88
_SPARE = 5.0
"""Points by which what stands above and below the rows is reckoned too high, so that no full sheet overflows."""


class _Spacing(NamedTuple):
    """How much room a schedule gives its parts, in points."""

    above: float
    """Above and below the text of a cell."""
    box: float
    """Above and below the text of a box."""
    heading: float
    """That a heading set upwards may be long before it goes over one more line."""


_USUAL, _LOW = _Spacing(1.6, 2.6, 62.0), _Spacing(1.1, 1.6, 46.0)
"""The second where it saves a sheet."""


def board_data(schedules: tuple[ScheduleSheet, ...], expected: Expectations, anchors: Any) -> Data:
    """The schedules of one board: those of all its circuits in parts of the same circuits; all on a sheet that holds them."""
    whole = _on_one_sheet(schedules)
    together = whole is not None
    tables = whole or _over_sheets(schedules)
    alike = _alike(tables)
    broken = _broken_alike(alike)
    return {
        "kind": "board",
        "together": together,
        "schedules": [
            table.data(
                _parts_for(table, broken if table in alike else None, together=together),
                expected,
                anchors,
            )
            for table in tables
        ],
    }


def _on_one_sheet(schedules: tuple[ScheduleSheet, ...]) -> "list[_Table] | None":
    """The schedules of a small board, if need be set closer; None where one sheet does not hold them all."""
    lowest = sum(len(sheet.rows) for sheet in schedules) * (_LINE + 2 * _LOW.above)
    if lowest > SIDEWAYS.frame_height:
        return None
    less = [_less(sheet, schedules[:at]) for at, sheet in enumerate(schedules)]
    widest = [widest_values(sheet) for sheet in less]
    for spacing in (_USUAL, _LOW):
        tables = [_Table(sheet, spacing, values) for sheet, values in zip(less, widest, strict=True)]
        if (
            sum(table.above + table.below + sum(table.row_heights) - _SPARE for table in tables)
            <= SIDEWAYS.frame_height
        ):
            return tables
    return None


def _over_sheets(schedules: tuple[ScheduleSheet, ...]) -> "list[_Table]":
    """The schedules of a larger board, set lower where that saves a sheet."""
    widest = [widest_values(sheet) for sheet in schedules]
    usual, low = (
        [_Table(sheet, spacing, values) for sheet, values in zip(schedules, widest, strict=True)]
        for spacing in (_USUAL, _LOW)
    )
    return low if len(_broken_alike(_alike(low))) < len(_broken_alike(_alike(usual))) else usual


def _alike(tables: "list[_Table]") -> "list[_Table]":
    """Those of all circuits of the board."""
    return [table for table in tables if len(table.sheet.rows) == len(tables[0].sheet.rows)]


def _broken_alike(tables: "list[_Table]") -> list[tuple[int, int]]:
    """Rows by sheet, the same of each table."""
    heights = [max(of_each) for of_each in zip(*[table.row_heights for table in tables], strict=True)]
    return parts_of(heights, SIDEWAYS.frame_height - max(table.above + table.below for table in tables))


def _less(sheet: ScheduleSheet, above: tuple[ScheduleSheet, ...]) -> ScheduleSheet:
    """A schedule without the boxes of its board that stand higher up on the same sheet; what is left is put together."""
    shown = {entry.label for other in above for row in other.header for entry in row}
    if not shown:
        return sheet
    left = tuple(entry for row in sheet.header for entry in row if entry.label not in shown)
    return replace(sheet, header=(left,) if left else ())


def _parts_for(table: "_Table", alike: list[tuple[int, int]] | None, *, together: bool) -> list[tuple[int, int]]:
    if together:
        return [(0, len(table.sheet.rows))]
    return alike or parts_of(table.row_heights, SIDEWAYS.frame_height - table.above - table.below)


def parts_of(heights: list[float], room: float) -> list[tuple[int, int]]:
    """Rows by sheet, as many as there is room for."""
    parts: list[tuple[int, int]] = []
    start, used = 0, 0.0
    for at, height in enumerate(heights):
        if used + height > room and at > start:
            parts.append((start, at))
            start, used = at, 0.0
        used += height
    return [*parts, (start, len(heights))]


class _Table:
    """One schedule with the sizes it will be set in."""

    def __init__(self, sheet: ScheduleSheet, spacing: _Spacing, widest: list[Widest]) -> None:
        self.sheet = sheet
        self.spacing = spacing
        self.widths = column_widths(sheet, spacing.heading, widest)
        self._rooms = [(width - 2 * BESIDE - _HAIR, int((width - 2 * BESIDE - _HAIR) / SIZE)) for width in self.widths]
        """Points for the text of a cell of each column, and letters that need no reckoning to be within them."""
        self._lines = [self._lines_of(row) for row in sheet.rows]
        self._of_one_line = [
            lines == 1 and not any(cell.origin in _SET_OTHERWISE or not is_cut_anywhere(cell.shown) for cell in row)
            for row, lines in zip(sheet.rows, self._lines, strict=True)
        ]
        heads = [head_of(column) for column in sheet.columns]
        self.upright = self._upright(heads)
        longest = max(
            (
                text_width(head, HEAD_SIZE, bold=True, condensed=True) / lines_upwards(head, spacing.heading)
                for head, up in zip(heads, self.upright, strict=True)
                if up
            ),
            default=2 * HEAD_LINE,
        )
        self.head_height = min(longest * 1.25, spacing.heading) + 8

    def _upright(self, heads: list[str]) -> list[bool]:
        """Which heads are set upwards: those with no room, and the figures of the same group with them."""
        narrow = [
            longest_word(head, HEAD_SIZE, bold=True, condensed=True) > width - 2 * BESIDE
            or lines_in(head, width - 2 * BESIDE, HEAD_SIZE, bold=True, condensed=True) > 2
            for head, width in zip(heads, self.widths, strict=True)
        ]
        columns = self.sheet.columns
        groups = {column.group for column, up in zip(columns, narrow, strict=True) if up and column.group}
        return [up or (each.group in groups and each.centred) for each, up in zip(columns, narrow, strict=True)]

    @property
    def row_heights(self) -> list[float]:
        """Points of each row."""
        return [_LINE + (lines - 1) * _LEADING + 2 * self.spacing.above for lines in self._lines]

    @property
    def above(self) -> float:
        """Points over the rows: title, boxes of the board, head of the table."""
        boxes = rows_of_boxes(self.sheet.header, SIDEWAYS)
        return _TITLE + self._box_line * boxes + 9 + self.head_height

    @property
    def below(self) -> float:
        """Points under the rows."""
        notes = sum(lines_in(note, SIDEWAYS.frame_width, SIZE) for note in self.sheet.notes)
        boxes = rows_of_boxes(self.sheet.footer, SIDEWAYS)
        return notes * 11.0 + self._box_line * boxes + 8

    @property
    def _box_line(self) -> float:
        return _BOX_TEXT + 2 * self.spacing.box + 0.42

    def data(self, parts: list[tuple[int, int]], expected: Expectations, anchors: Any) -> Data:
        """For the template."""
        sheet = self.sheet
        expected.begin(f"{sheet.title}, {sheet.subtitle}")
        across = edges(self.widths, SIDEWAYS.left)
        one_line = round(_SET_LINE + 2 * self.spacing.above, 2)
        return {
            "title": sheet.title,
            "subtitle": sheet.subtitle,
            "anchor": anchors[sheet.title, sheet.subtitle],
            "widths": self.widths,
            "inset": self.spacing.above,
            "box-inset": self.spacing.box,
            "head": self.head_height,
            "groups": [
                {"name": name, "span": len(list(columns))}
                for name, columns in groupby(sheet.columns, key=lambda column: column.group)
            ],
            "columns": [
                {"heading": head_of(column), "centred": column.centred, "upright": up}
                for column, up in zip(sheet.columns, self.upright, strict=True)
            ],
            "notes": list(sheet.notes),
            "parts": [
                {
                    "header": box_rows(sheet.header, SIDEWAYS, expected),
                    "rows": [self._row(row, across, expected) for row in sheet.rows[first:end]],
                    "heights": [one_line if low else None for low in self._of_one_line[first:end]],
                    "footer": box_rows(sheet.footer, SIDEWAYS, expected, by_hand=False),
                    "sheet": f"sheet {at} of {len(parts)}" if len(parts) > 1 else "",
                }
                for at, (first, end) in enumerate(parts, start=1)
            ],
        }

    def _row(self, row: Row, across: list[tuple[float, float]], expected: Expectations) -> Data:
        mark = expected.mark()
        cells = [
            cell_data(cell, width - 2 * BESIDE, SIZE, condensed=True)
            for cell, width in zip(row, self.widths, strict=True)
        ]
        for cell, column, where in zip(cells, self.sheet.columns, across, strict=True):
            what = f"{self.sheet.subtitle}, {row[0].text[:20]}, {column.heading}"
            expected.add_cell(mark, text_of(cell), what, where)
        return {"mark": mark, "cells": cells}

    def _lines_of(self, row: Row) -> int:
        most = 1
        for cell, (room, within) in zip(row, self._rooms, strict=True):
            shown = cell.shown
            if len(shown) > within or "\n" in shown:
                bold = cell.origin is ValueOrigin.FAILS
                most = max(most, lines_in(shown, room, SIZE, condensed=True, bold=bold))
        return most
