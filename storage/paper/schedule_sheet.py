"""Schedules drawn on pages that the press reserves."""

from itertools import groupby
from typing import Any

from domain.sheets.sheet import ScheduleSheet, SheetCell, SheetColumn, ValueOrigin
from storage.paper.escape import clean, squashed
from storage.paper.grid import (
    GROUP_HEIGHT,
    HEAD_TEXT,
    LEADING,
    PAD,
    SMALL_SIZE,
    TEXT_SIZE,
    TITLE_SIZE,
    GridPage,
    Header,
    Words,
    cell_lines,
    clipped,
    column_edges,
    head_height,
    heading_lines,
    is_bold,
    laid_header,
    notes_lines,
    paged,
)
from storage.paper.pen import Pen
from storage.paper.press import Press, Promise, Spot
from storage.paper.style import ACCENT, BAND, FAILING, FAILING_TINT, HAIRLINE, INK, SIDEWAYS, SLATE

_COLOURS = {ValueOrigin.OURS: SLATE, ValueOrigin.FAILS: FAILING}


def set_schedule_sheet(press: Press, sheet: ScheduleSheet) -> None:
    """One schedule over as many pages as its rows take."""
    header = laid_header(sheet)
    edges = column_edges(sheet.columns)
    head = head_height(sheet, edges)
    pages = paged(sheet, edges, header.bottom + head)
    for number, page in enumerate(pages, start=1):
        drawing = _Drawing(sheet, header, edges, head, page, f"sheet {number} of {len(pages)}")
        bookmark = clean(f"{sheet.title}, {sheet.subtitle}") if number == 1 else ""
        at = press.canvas(sheet.title, bookmark, SIDEWAYS, drawing.paint)
        press.promises += drawing.promises(at)


class _Drawing:
    """One page of a schedule."""

    def __init__(
        self,
        sheet: ScheduleSheet,
        header: Header,
        edges: tuple[float, ...],
        head: float,
        page: GridPage,
        count: str,
    ) -> None:
        self._sheet = sheet
        self._header = header
        self._edges = edges
        self._head_top = header.bottom
        self._body_top = header.bottom + head
        self._page = page
        self._count = count
        self._cells = tuple(self._laid_cells())

    def promises(self, page: int) -> list[Promise]:
        """What must be read back, and where."""
        return [
            Promise(words.promises, words.what, [Spot(page, words.x0 - 2, words.y0 - 2, words.x1 + 2, words.y1 + 1)])
            for words in (*self._header.words, *self._cells)
            if squashed(words.promises)
        ]

    def paint(self, page: Any) -> None:
        """Draw it all."""
        pen = Pen(page)
        self._paint_title(pen)
        self._paint_header(pen)
        self._paint_heads(pen)
        self._paint_rows(pen)
        self._paint_notes(pen)
        pen.finish()

    def _laid_cells(self) -> list[Words]:
        laid: list[Words] = []
        top = self._body_top
        for row, height in zip(self._page.rows, self._page.heights, strict=True):
            for column, cell, left, right in self._across(row):
                what = f"{self._sheet.title}, {self._sheet.subtitle}, circuit {row[0].text}: {column.heading}"
                laid.append(
                    Words(
                        cell_lines(cell, right - left),
                        left + PAD - 0.5,
                        top + PAD,
                        right - PAD + 0.5,
                        top + height,
                        TEXT_SIZE,
                        is_bold(cell),
                        column.centred,
                        cell.standing,
                        cell.shown,
                        what,
                    )
                )
            top += height
        return laid

    def _across(self, row: tuple[SheetCell, ...]) -> list[tuple[SheetColumn, SheetCell, float, float]]:
        return list(zip(self._sheet.columns, row, self._edges[:-1], self._edges[1:], strict=True))

    def _paint_title(self, pen: Pen) -> None:
        baseline = SIDEWAYS.top + TITLE_SIZE
        pen.write(self._sheet.title, SIDEWAYS.left, baseline, TITLE_SIZE, ACCENT, bold=True)
        board = clipped(self._sheet.subtitle, SIDEWAYS.frame_width - 250, 11)
        pen.write(board, SIDEWAYS.left + 150, baseline, 11, INK, bold=True)
        pen.write_to(self._count, SIDEWAYS.right, baseline, TEXT_SIZE, SLATE)

    def _paint_header(self, pen: Pen) -> None:
        for x0, y0, x1, y1, standing in self._header.boxes:
            pen.box((x0, y0, x1, y1), HAIRLINE, 0.5)
            if standing is ValueOrigin.FAILS:
                pen.failing((x0, y0, x1, y1))
            elif standing is ValueOrigin.BLANK:
                pen.dashed((x0 + 1, y0 + 1, x1 - 1, y1 - 1))
        for words in self._header.words:
            _write(pen, words)

    def _paint_heads(self, pen: Pen) -> None:
        top, bottom = self._head_top, self._body_top
        pen.fill((SIDEWAYS.left, top, SIDEWAYS.right, bottom), BAND)
        middle = top + GROUP_HEIGHT
        at = 0
        for group, members in groupby(self._sheet.columns, key=lambda column: column.group):
            count = len(list(members))
            left, right = self._edges[at], self._edges[at + count]
            if group:
                pen.write_mid(group, (left + right) / 2, top + PAD + HEAD_TEXT, HEAD_TEXT, ACCENT, bold=False)
                pen.line((left + 3, middle), (right - 3, middle), HAIRLINE, 0.5)
            at += count
        for column, left, right in zip(self._sheet.columns, self._edges, self._edges[1:], strict=False):
            for number, line in enumerate(heading_lines(column, right - left)):
                y = middle + PAD + HEAD_TEXT * (1 + number * LEADING) - 1
                is_unit = bool(column.unit) and number == len(heading_lines(column, right - left)) - 1
                if column.centred:
                    pen.write_mid(line, (left + right) / 2, y, HEAD_TEXT, SLATE if is_unit else INK, bold=not is_unit)
                else:
                    pen.write(line, left + PAD, y, HEAD_TEXT, SLATE if is_unit else INK, bold=not is_unit)
        pen.line((SIDEWAYS.left, top), (SIDEWAYS.right, top), ACCENT, 1.2)
        pen.line((SIDEWAYS.left, bottom), (SIDEWAYS.right, bottom), ACCENT, 1.2)

    def _paint_rows(self, pen: Pen) -> None:
        top = self._body_top
        if not self._page.rows:
            pen.write("No circuit is entered yet.", SIDEWAYS.left + PAD, top + 14, TEXT_SIZE, SLATE)
        framed: list[tuple[ValueOrigin, tuple[float, float, float, float]]] = []
        for number, (row, height) in enumerate(zip(self._page.rows, self._page.heights, strict=True)):
            if number % 2:
                pen.fill((SIDEWAYS.left, top, SIDEWAYS.right, top + height), BAND)
            for _, cell, left, right in self._across(row):
                if cell.standing is ValueOrigin.FAILS:
                    pen.fill((left, top, right, top + height), FAILING_TINT)
                if cell.standing in {ValueOrigin.FAILS, ValueOrigin.BLANK}:
                    framed.append((cell.standing, (left, top, right, top + height)))
            top += height
        self._paint_lines(pen)
        for standing, box in framed:
            if standing is ValueOrigin.FAILS:
                pen.failing(box)
            else:
                x0, y0, x1, y1 = box
                pen.dashed((x0 + 2, y0 + 2, x1 - 2, y1 - 2))
        for words in self._cells:
            _write(pen, words)

    def _paint_lines(self, pen: Pen) -> None:
        bottom = self._body_top
        for height in self._page.heights:
            bottom += height
            pen.line((SIDEWAYS.left, bottom), (SIDEWAYS.right, bottom), HAIRLINE, 0.5)
        groups = [column.group or str(at) for at, column in enumerate(self._sheet.columns)]
        for at, x in enumerate(self._edges):
            opens = at in {0, len(groups)} or groups[at] != groups[at - 1]
            top = self._head_top if opens else self._head_top + GROUP_HEIGHT
            pen.line((x, top), (x, bottom), SLATE if opens else HAIRLINE, 0.8 if opens else 0.4)

    def _paint_notes(self, pen: Pen) -> None:
        y = self._body_top + sum(self._page.heights) + SMALL_SIZE * LEADING + 3
        for line in notes_lines(self._sheet):
            pen.write(line, SIDEWAYS.left, y, SMALL_SIZE, SLATE)
            y += SMALL_SIZE * LEADING


def _write(pen: Pen, words: Words) -> None:
    colour = _COLOURS.get(words.standing, INK)
    for number, line in enumerate(words.lines):
        y = words.y0 + words.size * (0.95 + number * LEADING)
        if words.centred:
            pen.write_mid(line, (words.x0 + words.x1) / 2, y, words.size, colour, bold=words.bold)
        else:
            pen.write(line, words.x0, y, words.size, colour, bold=words.bold)
