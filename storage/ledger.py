"""The ledger: a line for everything the log keeps for good, in the order it was kept, each chained to all before it.

Edits, issued records, versions of register entries and notes stay in tables of their own; the ledger holds a hash of each.
Whatever is changed, put in or taken out past this program no longer agrees with it, and whoever holds one of its heads can
tell whether anything before that head was altered since.
"""

import json
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from domain.log.chain import NO_RECORD, entered
from storage.ledger_entries import EDIT, ISSUED, NOTE, REGISTER, KeptRow, LedgerLine, entry_of, named_alike
from storage.log_file import LogFile
from storage.trail_block import folded_rows
from storage.trails import folded_trails


class _KeptTable(NamedTuple):
    """Of a table, all that is kept for good: the row, what it is about, and its values."""

    select: str
    key: str


_KEPT = {
    EDIT: _KeptTable(
        "SELECT edit.seq, job.number, edit.op, edit.version, edit.at, edit.who, edit.what, edit.command, edit.begun,"
        " edit.changes, edit.undoes, edit.redoes FROM edit JOIN job ON job.id = edit.job_id",
        "edit.seq",
    ),
    ISSUED: _KeptTable(
        "SELECT issued.seq, job.number, issued.number, hex(issued.sha), hex(issued.chain), hex(issued.pdf_sha),"
        " issued.pages, issued.replaces, issued.issued_by, issued.issued_at FROM issued JOIN job ON job.id = issued.job_id",
        "issued.seq",
    ),
    REGISTER: _KeptTable(
        "SELECT register.seq, 'entry ' || register.entry, register.entry, register.version, register.kind, register.at,"
        " register.who, register.retired, register.body FROM register",
        "register.seq",
    ),
    NOTE: _KeptTable("SELECT note.id, note.topic, note.topic, note.who, note.at, note.text FROM note", "note.id"),
}
_HELD_OF = "SELECT row, about, sha FROM ledger WHERE kind = 'edit' AND row IN (SELECT value FROM json_each(?))"
_PAGE = 1000
_LAST = "SELECT seq, chain FROM ledger ORDER BY seq DESC LIMIT 1"


class LedgerEnd(NamedTuple):
    """How far a log is."""

    seq: int
    head: bytes


def enter(file: LogFile, kind: str, row: int) -> None:
    """Give a row that was just written its line. Call it inside the write."""
    ((_, about, *values),) = file.run(_one(kind), (row,))
    end = end_of(file)
    sha = entry_of(kind, row, about, values)
    chain = entered(end.head, sha)
    file.run(
        "INSERT INTO ledger (seq, kind, row, about, sha, chain) VALUES (?, ?, ?, ?, ?, ?)",
        (end.seq + 1, kind, row, about, sha, chain),
    )
    file.tell(end.seq + 1, chain, about)


def end_of(file: LogFile) -> LedgerEnd:
    """The last line; zeros while there is none."""
    last = file.first(_LAST)
    return LedgerEnd(*last) if last else LedgerEnd(0, NO_RECORD)


def vouches_for(file: LogFile, number: str) -> bool:
    """The issued record of this number was kept by this program, and is as it was."""
    found = file.first("SELECT seq FROM issued WHERE number = ?", (number,))
    return found is not None and _is_held(file, ISSUED, found[0])


def strangers_among(file: LogFile, numbers: Iterable[str]) -> frozenset[str]:
    """Those of which no issued record was ever entered."""
    rows = file.run(
        "SELECT value FROM json_each(?) WHERE NOT EXISTS (SELECT 1 FROM issued JOIN ledger ON ledger.kind = 'issued'"
        " AND ledger.row = issued.seq WHERE issued.number = value)",
        (json.dumps([*numbers]),),
    )
    return frozenset(number for (number,) in rows)


def rows_of(file: LogFile, kind: str) -> Iterator[KeptRow]:
    """Every row of a table, oldest first, with what the ledger holds of it; edits that are folded come last."""
    select, key = _KEPT[kind]
    joined = select.replace(" FROM ", ", ledger.about, ledger.sha FROM ", 1)
    after = -1
    while rows := file.run(
        f"{joined} LEFT JOIN ledger ON ledger.kind = '{kind}' AND ledger.row = {key}"
        f" WHERE {key} > ? ORDER BY {key} LIMIT {_PAGE}",
        (after,),
    ):
        for row, about, *values, held_about, held in rows:
            entry = entry_of(kind, row, about, values)
            yield KeptRow(row, about, entry, named_alike(held, about, held_about), tuple(values))
        after = rows[-1][0]
    for trail in folded_trails(file) if kind == EDIT else ():
        yield from folded_rows(trail, lambda edits: file.run(_HELD_OF, (json.dumps([each.seq for each in edits]),)))


def lines_of(file: LogFile) -> Iterator[LedgerLine]:
    """Every line, in its order."""
    after = -1
    while rows := file.run(
        "SELECT seq, kind, row, about, sha, chain FROM ledger WHERE seq > ? ORDER BY seq LIMIT ?", (after, _PAGE)
    ):
        yield from map(LedgerLine._make, rows)
        after = rows[-1][0]


def turn_of(file: LogFile, kind: str, row: int) -> int:
    """When a row was kept, by the log's own counter; 0 where the ledger does not know it."""
    found = file.first("SELECT seq FROM ledger WHERE kind = ? AND row = ?", (kind, row))
    return found[0] if found else 0


def _is_held(file: LogFile, kind: str, row: int) -> bool:
    held = file.first("SELECT about, sha FROM ledger WHERE kind = ? AND row = ?", (kind, row))
    found = file.first(_one(kind), (row,))
    if held is None or found is None:
        return False
    _, about, *values = found
    return held == (about, entry_of(kind, row, about, values))


def _one(kind: str) -> str:
    select, key = _KEPT[kind]
    return f"{select} WHERE {key} = ?"
