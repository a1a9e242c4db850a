"""The sheets a front counts, taken from the pack itself."""

from domain.sheets.sheet import Block, Contents, Sheet, SheetEntry, SheetGroup


def enclosed_in(others: tuple[Sheet, ...], attached: tuple[SheetEntry, ...], *, paper: str) -> tuple[Block, ...]:
    """Every sheet that follows the front, what else goes with them, and that it is nothing without them."""
    note = f"This {paper} is valid only with everything listed here."
    listed = Contents("", tuple((sheet.title, sheet.subtitle) for sheet in others), note)
    return (listed, SheetGroup("", (attached,))) if attached else (listed,)
