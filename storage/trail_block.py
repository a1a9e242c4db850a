"""The trail of an issued job as one block of bytes, beside which no row of it is kept: a tenth of the room, and the same rows."""

import json
import zlib
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import accumulate, pairwise
from typing import Any, NamedTuple

from storage.errors import DamagedError, damaged
from storage.ledger_entries import EDIT, KeptRow, Row, entry_of, named_alike

COLUMNS = "seq, op, version, at, who, what, command, begun, changes, undoes, redoes"
"""What is kept of an edit, in the order of its row."""
_MOST = 256 * 1024 * 1024
"""Bytes a trail may unfold to; a block that would take more was not made here."""
_FOLLOWS = (int, str, int, int, str, str, str | None, str | None, str | None, int | None, int | None)


class EditRow(NamedTuple):
    """One edit, as `COLUMNS` name it."""

    seq: int
    op: str
    version: int
    at: int
    who: str
    what: str
    command: str | None
    begun: str | None
    changes: str | None
    undoes: int | None
    redoes: int | None

    @property
    def kept(self) -> tuple[Any, ...]:
        """What the ledger holds of it."""
        return self[1:]


class FoldedTrail(NamedTuple):
    """The trail of one job as it is folded."""

    job_id: int
    number: str
    last: int
    """So many edits are said to be in it."""
    edits: list[EditRow] | None
    """These; None where they cannot be read, or are not so many."""

    @classmethod
    def of(cls, row: Row) -> "FoldedTrail":
        """From job, number, count and block."""
        job_id, number, last, block = row
        try:
            edits = unfolded(block, number)
        except DamagedError:
            edits = []
        return cls(job_id, number, last, edits if len(edits) == last and edits else None)


def folded(rows: Sequence[EditRow]) -> bytes:
    """A block of a trail from its first edit on.

    Columns lie together, for each is most like itself: turns and moments as steps from one to the next, versions not at all.
    """
    seq, op, _, at, *others = map(list, zip(*rows, strict=True))
    text = json.dumps([_steps(seq), op, _steps(at), *others], ensure_ascii=False, separators=(",", ":"))
    return zlib.compress(text.encode(), 9)


def unfolded(block: bytes, about: str) -> list[EditRow]:
    """The edits of a block; DamagedError, which says what it is `about`, where this program did not make it so."""
    try:
        inflating = zlib.decompressobj()
        text = inflating.decompress(block, _MOST)
        held: list[list[Any]] = json.loads(text) if inflating.eof else []
        seq, op, at, *others = held
        columns: tuple[Iterable[Any], ...] = (accumulate(seq), op, range(1, len(op) + 1), accumulate(at), *others)
        rows = [EditRow(*row) for row in zip(*columns, strict=True)]
    except (zlib.error, ValueError, TypeError, RecursionError) as strange:
        raise damaged(f"The trail of {about}") from strange
    if not rows or not all(map(_is_edit, rows)):
        raise damaged(f"The trail of {about}")
    return rows


def can_be_folded(rows: Sequence[EditRow]) -> bool:
    """They are a whole trail from its first edit on."""
    return bool(rows) and [row.version for row in rows] == [*range(1, len(rows) + 1)]


def note_counters(counters: dict[str, int], ops: Iterable[str]) -> None:
    """Keep, by device, the highest counter among the names that it gave to edits; other names are passed over."""
    for op in ops:
        device, _, counter = op.rpartition(":")
        if device and counter.isascii() and counter.isdecimal():
            counters[device] = max(counters.get(device, 0), int(counter))


def folded_rows(trail: FoldedTrail, held_of: Callable[[Sequence[EditRow]], Iterable[Row]]) -> Iterator[KeptRow]:
    """The edits of a folded trail with what the ledger holds of them; `held_of` asks it, and gives rows, what they are about, and hashes."""
    if trail.edits is None:
        yield KeptRow(0, trail.number, b"", b"altered", ("", f"1 to {trail.last}"))
        return
    held = {row: named_alike(sha, trail.number, about) for row, about, sha in held_of(trail.edits)}
    for each in trail.edits:
        sha = entry_of(EDIT, each.seq, trail.number, each.kept)
        yield KeptRow(each.seq, trail.number, sha, held.get(each.seq), each.kept)


def _steps(numbers: Sequence[int]) -> list[int]:
    return [after - before for before, after in pairwise((0, *numbers))]


def _is_edit(row: EditRow) -> bool:
    return all(isinstance(value, kind) for value, kind in zip(row, _FOLLOWS, strict=True))
