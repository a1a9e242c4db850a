"""What a ledger holds of everything that is kept for good, alike at every keeper: so that a log is moved with its heads."""

import json
from collections.abc import Sequence
from typing import Any, NamedTuple

from domain.log.chain import entry_hash

EDIT, ISSUED, REGISTER, NOTE = "edit", "issued", "register", "note"
KINDS = (EDIT, ISSUED, REGISTER, NOTE)
KEYS = {EDIT: "seq", ISSUED: "seq", REGISTER: "seq", NOTE: "id"}
"""The column of each table by which the ledger knows a row."""

Row = tuple[Any, ...]
_OF_ANOTHER = b"of another"


class LedgerLine(NamedTuple):
    """One line as it is kept."""

    seq: int
    """The log's own counter: the order of everything, whatever clocks said."""
    kind: str
    row: int
    about: str
    """Number of a job, topic of a note, or which entry."""
    sha: bytes
    chain: bytes


class KeptRow(NamedTuple):
    """A row that is kept for good, and what the ledger holds of it."""

    row: int
    about: str
    sha: bytes
    """Of the row as it stands."""
    held: bytes | None
    """As the ledger has it; None where it has none."""
    values: Row


def entry_of(kind: str, row: int, about: str, values: Sequence[Any]) -> bytes:
    """The hash of a row by all that is kept of it for good; hashes among its values are hexadecimal in capitals."""
    text = json.dumps([kind, row, about, *values], ensure_ascii=False, separators=(",", ":"))
    return entry_hash(text.encode(errors="surrogatepass"))


def named_alike(held: bytes | None, about: str, held_about: str | None) -> bytes | None:
    """What the ledger holds of a row; nothing that agrees with any row where its line names another."""
    return held if held is None or about == held_about else _OF_ANOTHER
