"""The schedules a front sheet counts, taken from the pack itself."""

from domain.sheets.sheet import Sheet, SheetEntry, SheetGroup


def counted(others: tuple[Sheet, ...]) -> tuple[SheetEntry, ...]:
    """How many sheets of each kind follow the front."""
    kinds: dict[str, int] = {}
    for sheet in others:
        kinds[sheet.title] = kinds.get(sheet.title, 0) + 1
    return tuple(SheetEntry(title, str(count)) for title, count in kinds.items())


def enclosed_in(others: tuple[Sheet, ...], attached: tuple[SheetEntry, ...], *, paper: str) -> SheetGroup:
    """How many sheets of each kind follow the front, what else goes with them, and that it is nothing without them."""
    rows = tuple(row for row in (counted(others), attached) if row)
    return SheetGroup("Enclosed", rows, f"This {paper} is valid only with everything listed here.")
