"""The seam where rows become entries of the registers."""

from typing import Any

from pydantic import ValidationError

from domain.register.entries import ENTRY, Kept, RegisterEntry
from storage.errors import damaged
from storage.line_rows import moment


def entry_number(entry_id: str) -> int:
    """The number by which rows know an entry; one that none has where it is no number."""
    return int(entry_id) if entry_id.isascii() and entry_id.isdecimal() and len(entry_id) < 19 else -1


def entry_in(number: int, body: str) -> RegisterEntry:
    """The entry that a version keeps; raises where it was altered on disk."""
    try:
        return ENTRY.validate_json(body)
    except ValidationError as trouble:
        raise damaged(f"Entry {number} of the registers") from trouble


def kept_from(row: tuple[Any, ...]) -> Kept:
    """A version of an entry from its columns."""
    number, version, at, who, retired, body = row
    entry = entry_in(number, body)
    return Kept(id=str(number), version=version, at=moment(at), who=who, entry=entry, retired=bool(retired))
