"""The schedules a front sheet counts, taken from the pack itself."""

from domain.sheets.sheet import Entry, Group, Sheet, Standing


def enclosed_in(others: tuple[Sheet, ...], *, paper: str) -> Group:
    """How many sheets of each kind follow the front, and that the paper is nothing without them."""
    kinds: dict[str, int] = {}
    for sheet in others:
        kinds[sheet.title] = kinds.get(sheet.title, 0) + 1
    entries = tuple(Entry(title, str(count), standing=Standing.OURS) for title, count in kinds.items())
    rows = tuple(entries[at : at + 3] for at in range(0, len(entries), 3))
    return Group("Enclosed", rows, f"This {paper} is valid only with everything listed here.")
