"""What a log consists of, as every keeper has it. What is found by is not among it: each keeper makes that anew."""

import hashlib
from collections.abc import Iterable, Iterator, Sequence
from typing import Any, NamedTuple, Protocol

from storage.trail_block import note_counters, unfolded

Row = tuple[Any, ...]


class LogPart(NamedTuple):
    """Rows of one kind; the first columns, so many as `keys`, say which row it is and in which order they come."""

    name: str
    columns: tuple[str, ...]
    keys: int = 1

    @property
    def last_first(self) -> str:
        """The order from the last row to the first."""
        return ", ".join(f"{column} DESC" for column in self.columns[: self.keys])

    @property
    def key(self) -> str:
        """The columns of the key, as a statement names them."""
        return ", ".join(self.columns[: self.keys])


def _part(name: str, columns: str, keys: int = 1) -> LogPart:
    return LogPart(name, tuple(columns.split()), keys)


DEVICE = _part("device", "id prefix next_number is_here")
JOB = _part(
    "job",
    "id number version client premises form_set state outcome open_snags replaces updated due put_right day laid_aside",
)
EDIT = _part("edit", "seq op job_id version at who what command begun changes undoes redoes")
FOLDED = _part("folded_trail", "job_id begun_as last edits")
PAPER = _part("paper", "seq number pdf")
"""The turn and number of an issued record, with its paper."""
LEFT_OFF = _part("left_off", "who job_id place turn", 2)
STATION = _part("station", "turn device name person days is_office state key was is_awaited heard contested heard_at")
MATTER = _part("matter", "seq kind job device other first last is_settled")
PARTS = (
    DEVICE,
    JOB,
    _part("draft", "job_id body crc"),
    EDIT,
    _part("hand", "job_id who updated", 2),
    _part("issued", "seq job_id number body sha chain pdf_sha pages replaces issued_by issued_at"),
    FOLDED,
    PAPER,
    _part("note", "id topic who at text"),
    LEFT_OFF,
    _part("register", "seq entry version kind at who retired body"),
    _part("register_now", "entry seq kind retired title identity"),
    _part("register_word", "kind word entry", 3),
    _part("ledger", "seq kind row about sha chain"),
    STATION,
    _part("operation", "seq device counter before act job fence after at body digest is_done"),
    _part("operation_aside", "device counter", 2),
    _part("contested", "job"),
    _part("holding", "job holder fence tip since goes_on_as goes_on_from is_issued"),
    MATTER,
)
"""In an order in which each row comes after those it names."""
MADE_ANEW = {
    "job_text": "what is found by",
    "term": "what is found by",
    "near": "what is found by",
    "duty_day": "follows from the jobs and the notes on their duties",
    "duty_job": "follows from the jobs and the notes on their duties",
    "duty_rules": "follows from the jobs and the notes on their duties",
    "pending_task": "nothing is pending in a log that was just opened",
    "device.next_op": "follows from the names of edits",
}
"""Tables and columns that are not carried, and why."""
STATES = _part("job", "id state")
"""A job begins as a draft at every keeper; what it is comes after its record."""
_PAGE = 500


class LogEnd(Protocol):
    """One end of a move: a log that is read, or one that is written. Values are bytes, texts, whole numbers and None."""

    def rows(self, part: LogPart, after: Row | None, limit: int) -> list[Row]:
        """The rows after a key, in the order of the keys."""
        ...

    def last(self, part: LogPart) -> Row | None:
        """The key of the last row that is there; None where there is none."""
        ...

    def add(self, part: LogPart, rows: Sequence[Row]) -> None:
        """Keep rows, all of them or none."""
        ...

    def set_states(self, rows: Sequence[Row]) -> None:
        """Have jobs be what they are: rows of `STATES`."""
        ...

    def finish(self) -> None:
        """Have the log number on from what was moved."""
        ...


def every_row(end: LogEnd, part: LogPart, after: Row | None = None) -> Iterator[list[Row]]:
    """All rows of a part after a key, some at a time."""
    # Papers are large.
    limit = 20 if part is PAPER else 100 if part is FOLDED else _PAGE
    while rows := end.rows(part, after, limit):
        yield rows
        after = rows[-1][: part.keys]


def last_ops(end: LogEnd) -> dict[str, int]:
    """By device, the highest counter among the names that it gave to edits, those that are folded with them."""
    counters: dict[str, int] = {}
    for rows in every_row(end, EDIT):
        note_counters(counters, (row[1] for row in rows))
    for rows in every_row(end, FOLDED):
        for job_id, _, _, block in rows:
            note_counters(counters, (each.op for each in unfolded(block, f"job {job_id}")))
    return counters


def digest(end: LogEnd) -> str:
    """What tells whether two ends hold the same, row by row."""
    mark = hashlib.sha256()
    for part in PARTS:
        mark.update(f"\n{part.name}\n".encode())
        for rows in every_row(end, part):
            mark.update(_as_bytes(rows))
    return mark.hexdigest()


def _as_bytes(rows: Iterable[Row]) -> bytes:
    return b"\n".join(repr(row).encode() for row in rows) + b"\n"
