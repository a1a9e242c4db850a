"""Everything that stands on a pack's sheets, as plain texts."""

from collections.abc import Iterator

from domain.sheets.sheet import (
    Banner,
    Contents,
    Divider,
    Listing,
    Passage,
    ScheduleSheet,
    Section,
    Sheet,
    SheetEntry,
    SheetGroup,
    SheetNote,
    SheetPictures,
    SheetSeal,
    Signing,
    TextSheet,
)


def entries_on(sheet: Sheet) -> Iterator[SheetEntry]:
    """The labelled boxes of a sheet."""
    if isinstance(sheet, ScheduleSheet):
        yield from (entry for row in (*sheet.header, *sheet.footer) for entry in row)
        return
    for block in sheet.blocks:
        if isinstance(block, SheetGroup):
            yield from (entry for row in block.rows for entry in row)
        elif isinstance(block, Signing):
            yield from (entry for row in block.entries for entry in row)


def texts_on(sheet: Sheet) -> Iterator[str]:
    """Every text of a sheet."""
    yield sheet.title
    yield sheet.subtitle
    for entry in entries_on(sheet):
        yield entry.label
        yield entry.value
    if isinstance(sheet, ScheduleSheet):
        yield from (cell.text for row in sheet.rows for cell in row)
        yield from sheet.notes
        return
    for block in sheet.blocks:
        yield from _texts_of(block)


def _texts_of(block: object) -> Iterator[str]:
    match block:
        case Contents():
            yield from (part for each in block.sheets for part in each)
        case SheetGroup():
            yield from (block.heading, block.note)
        case Signing():
            yield from (block.heading, block.declares)
        case Passage():
            yield from (block.heading, block.text)
        case SheetNote():
            yield from (block.heading, block.text)
        case Banner():
            yield from (block.label, block.says, block.beneath)
        case SheetSeal():
            yield from (block.heading, block.label)
        case Section() | SheetPictures():
            yield from [block.heading] if isinstance(block, Section) else [each.instead for each in block.pictures]
        case Listing():
            yield from (block.heading, block.note)
            yield from _texts_in(block)
        case _:
            raise AssertionError(block)


def _texts_in(listing: Listing) -> Iterator[str]:
    for row in listing.rows:
        yield from (row.text,) if isinstance(row, Divider) else (cell.text for cell in row)


def said_on(sheets: tuple[Sheet, ...]) -> str:
    """All of it, one text a line."""
    return "\n".join(text for sheet in sheets for text in texts_on(sheet))


def titled(sheets: tuple[Sheet, ...], title: str) -> list[Sheet]:
    """The sheets under one title."""
    return [sheet for sheet in sheets if sheet.title == title]


def first_text_sheet(sheets: tuple[Sheet, ...]) -> TextSheet:
    """The front."""
    front = sheets[0]
    assert isinstance(front, TextSheet)
    return front
