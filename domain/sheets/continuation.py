"""What is too long for its place moves to the continuation sheet, whole, and its place says where."""

import unicodedata
from dataclasses import dataclass, field, replace
from math import ceil

from domain.sheets.sheet import (
    Block,
    Divider,
    Listing,
    Passage,
    Row,
    ScheduleSheet,
    Sheet,
    SheetCell,
    SheetColumn,
    SheetEntry,
    SheetGroup,
    SheetNote,
    Signing,
    TextSheet,
    ValueOrigin,
)

TITLE = "Continuation sheet"
_ALONE_LINES = 14
_ENTRY_LINES = 6
_CELL_LINES = 12
_SCHEDULE_LINES = 6
_PAGE_WIDTH = 96
_SCHEDULE_WIDTH = 200
"""Characters to a line, as near as pure text can judge; typesetting measures and refuses what does not fit."""


@dataclass
class _Moved:
    passages: list[Passage] = field(default_factory=list[Passage])

    def add(self, heading: str, text: str) -> str:
        number = str(len(self.passages) + 1)
        self.passages.append(Passage(number, heading, text))
        return f"See the continuation sheet, entry {number}"


def with_continuation(sheets: tuple[Sheet, ...]) -> tuple[tuple[Sheet, ...], TextSheet | None]:
    """The sheets with long texts taken out, and the continuation sheet that holds them, if any."""
    moved = _Moved()
    made = tuple(
        _shortened(sheet, moved) if isinstance(sheet, TextSheet) else _shortened_schedule(sheet, moved)
        for sheet in sheets
    )
    if not moved.passages:
        return sheets, None
    told = SheetNote("Texts that had no room in their place on the sheets, each in full.")
    return made, TextSheet(TITLE, "Entries are numbered as the other sheets name them", (told, *moved.passages))


def lines_of(text: str, width: int) -> int:
    """About how many lines a text takes in so many characters."""
    return sum(max(1, ceil(sum(_breadth(letter) for letter in line) / width)) for line in text.split("\n"))


def _breadth(letter: str) -> float:
    if letter.isascii():
        return 1.7 if letter in "WM@%" else 1.3 if letter.isupper() else 1
    return 2 if unicodedata.east_asian_width(letter) in "WF" or ord(letter) > 0xFFFF else 1.3


def _shortened(sheet: TextSheet, moved: _Moved) -> TextSheet:
    return replace(sheet, blocks=tuple(_block(block, moved) for block in sheet.blocks))


def _block(block: Block, moved: _Moved) -> Block:
    match block:
        case SheetGroup():
            return replace(block, rows=_entry_rows(block.rows, moved))
        case Signing():
            return replace(block, entries=_entry_rows(block.entries, moved))
        case Listing():
            rows = tuple(each if isinstance(each, Divider) else _row(block, each, moved) for each in block.rows)
            return replace(block, rows=rows)
        case _:
            return block


def _entry_rows(rows: tuple[tuple[SheetEntry, ...], ...], moved: _Moved) -> tuple[tuple[SheetEntry, ...], ...]:
    return tuple(_entry_row(row, _PAGE_WIDTH, moved) for row in rows)


def _entry_row(row: tuple[SheetEntry, ...], page: int, moved: _Moved) -> tuple[SheetEntry, ...]:
    share = page // sum(entry.weight for entry in row)
    most = _ALONE_LINES if len(row) == 1 else _ENTRY_LINES
    return tuple(_entry(entry, share * entry.weight - 3, most, moved) for entry in row)


def _entry(entry: SheetEntry, width: int, most: int, moved: _Moved) -> SheetEntry:
    if lines_of(entry.value, width) <= most:
        return entry
    return replace(entry, value=moved.add(entry.label, entry.value), origin=ValueOrigin.OURS)


def _row(listing: Listing, row: Row, moved: _Moved) -> Row:
    heading = f"{listing.heading},".removeprefix(",") or listing.columns[0].heading
    heading = f"{heading} {row[0].text[:40]}".rstrip(" ,")
    return _cells(heading, listing.columns, row, _PAGE_WIDTH, _CELL_LINES, moved)


def _shortened_schedule(sheet: ScheduleSheet, moved: _Moved) -> ScheduleSheet:
    header = tuple(_entry_row(row, _SCHEDULE_WIDTH - 60, moved) for row in sheet.header)
    rows = tuple(
        _cells(
            f"{sheet.title}, {sheet.subtitle[:40]}, circuit {row[0].text[:20]}",
            sheet.columns,
            row,
            _SCHEDULE_WIDTH,
            _SCHEDULE_LINES,
            moved,
        )
        for row in sheet.rows
    )
    return replace(sheet, header=header, rows=rows)


def _cells(heading: str, columns: tuple[SheetColumn, ...], row: Row, page: int, most: int, moved: _Moved) -> Row:
    total = sum(column.width for column in columns)
    cells: list[SheetCell] = []
    for column, cell in zip(columns, row, strict=True):
        if len(cell.text) > 24 and lines_of(cell.text, max(3, column.width * page // total)) > most:
            note = moved.add(f"{heading}: {column.heading}", cell.text)
            short = note if column.width > 12 else f"see cont. {len(moved.passages)}"
            cells.append(SheetCell(short, ValueOrigin.OURS, cell.beside))
        else:
            cells.append(cell)
    return tuple(cells)
