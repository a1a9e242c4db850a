"""What is gathered of all edits of a log while they are held against the ledger, so that no block is unfolded twice for it."""

from collections import defaultdict
from collections.abc import Iterable, Iterator

from storage.ledger_entries import EDIT, KeptRow, LedgerLine
from storage.trail_block import note_counters

_OP, _VERSION, _WHO = 0, 1, 3
"""Where among the values of an edit its name, its place in the trail and its author stand."""
_BITS = 4096


class EditsSeen:
    """Which edits there are, whose they are, and how far each device has named them."""

    def __init__(self) -> None:
        self._rows = defaultdict[int, int](int)
        self.hands: defaultdict[str, set[str]] = defaultdict(set)
        """Who had a hand in each job, by its number."""
        self.counters: dict[str, int] = {}
        """The highest counter among the names that each device gave."""
        self.begun: dict[str, str] = {}
        """The name of the first edit of each job, by its number."""
        self.count = 0
        """How many edits there are."""

    def all_of(self, rows: Iterable[KeptRow]) -> Iterator[KeptRow]:
        """The rows, seen on the way."""
        for row in rows:
            if len(row.values) > _WHO:
                self._see(row)
            yield row

    def taken_out(self, lines: Iterable[LedgerLine]) -> Iterator[str]:
        """What edits were about that the ledger knows and that are not there any more."""
        gone = (line.about for line in lines if line.kind == EDIT and not self._holds(line.row))
        yield from dict.fromkeys(gone)

    def _holds(self, row: int) -> bool:
        return bool(self._rows.get(row // _BITS, 0) & 1 << row % _BITS)

    def _see(self, row: KeptRow) -> None:
        if row.held is not None:
            # A bit each: there may be fifty million, and they may lie anywhere where somebody forged them.
            self._rows[row.row // _BITS] |= 1 << row.row % _BITS
        self.count += 1
        if row.values[_VERSION] == 1:
            self.begun[row.about] = row.values[_OP]
        self.hands[row.about].add(row.values[_WHO])
        note_counters(self.counters, (row.values[_OP],))
