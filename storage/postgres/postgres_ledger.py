"""The ledger of a log on a server: it takes its turn once a transaction has all else, so that nobody waits for long."""

import json
import re
from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from typing import Any

from domain.log.chain import NO_RECORD
from storage.ledger_entries import EDIT, ISSUED, KEYS, NOTE, REGISTER, KeptRow, LedgerLine, entry_of, named_alike
from storage.postgres.log_server import LogServer
from storage.postgres.postgres_trails import folded_trails
from storage.postgres.server_lines import Row
from storage.postgres.transaction import Asked
from storage.trail_block import folded_rows
from storage.upkeep.edits_seen import EditsSeen

_ENTER = "SELECT enter(%s, %s, %s, %s)"
_TURN = "SELECT pg_advisory_xact_lock(hashtext('ohmfolio ledger'), hashtext(current_schema()))"
"""The one that `enter` takes."""
_HEXADECIMAL = ", ".join(f"upper(encode(issued.{column}, 'hex'))" for column in ("sha", "chain", "pdf_sha"))
_KEPT = {
    EDIT: "job.number, edit.op, edit.version, edit.at, edit.who, edit.what, edit.command, edit.begun, edit.changes,"
    " edit.undoes, edit.redoes FROM edit JOIN job ON job.id = edit.job_id",
    ISSUED: f"job.number, issued.number, {_HEXADECIMAL}, issued.pages, issued.replaces, issued.issued_by, issued.issued_at"
    " FROM issued JOIN job ON job.id = issued.job_id",
    REGISTER: "'entry ' || register.entry, register.entry, register.version, register.kind, register.at, register.who,"
    " register.retired::integer, register.body FROM register",
    NOTE: "note.topic, note.topic, note.who, note.at, note.text FROM note",
}
"""Of each table all that is kept for good, as SQLite has it: what it is about, then its values."""
_PAGE = 1_000
_HAD = """
SELECT 1 FROM ledger WHERE chain = %(head)s UNION ALL SELECT 1 FROM issued WHERE chain = %(head)s LIMIT 1
"""
_HELD_OF = "SELECT row, about, sha FROM ledger WHERE kind = 'edit' AND row = ANY(%s)"
_VOUCHING = f"""
SELECT issued.seq, ledger.about, ledger.sha, {_KEPT[ISSUED]}
LEFT JOIN ledger ON ledger.kind = 'issued' AND ledger.row = issued.seq WHERE issued.number = %s
"""
_STRANGERS = """
SELECT asked FROM unnest(%s::text[]) AS asked WHERE NOT EXISTS (
    SELECT 1 FROM issued JOIN ledger ON ledger.kind = 'issued' AND ledger.row = issued.seq WHERE issued.number = asked)
"""
_BODIES = """
SELECT seq, number, body FROM issued WHERE seq > %s AND NOT EXISTS (
    SELECT 1 FROM operation WHERE job = issued.number AND job <> '' AND act = 'issue'
        AND device NOT IN (SELECT id FROM device WHERE is_here))
ORDER BY seq LIMIT %s
"""
_WHOLE_HEAD = re.compile("[0-9a-f]{64}")


class PostgresLedger:
    """A line for everything that a log keeps for good. Entries are made inside a transaction, as the last thing in it."""

    def __init__(self, server: LogServer) -> None:
        self._server = server

    def enter(self, kind: str, row: int, about: str, values: Sequence[Any]) -> None:
        """Give a row that was just written its line."""
        self._server.run_last(_ENTER, (kind, row, about, entry_of(kind, row, about, values)))

    def head(self) -> bytes:
        """The newest; zeros while there is none. Inside a transaction nobody else adds to it until it ends."""
        if self._server.in_transaction:
            self._server.run_what_is_last()
            self._server.run(_TURN)
        last = self._server.first("SELECT chain FROM ledger ORDER BY seq DESC LIMIT 1")
        return last[0] if last else NO_RECORD

    def had_head(self, head: bytes) -> bool:
        """It was at this once."""
        # Papers issued before there was a ledger print the chain over the records.
        return head == NO_RECORD or self._server.first(_HAD, {"head": head}) is not None

    def vouches_for(self, number: str) -> bool:
        """The issued record of this number was kept by this program, and is as it was."""
        self._enter_now([number])
        return is_vouched_for(self._server.run(*vouching_of(number)))

    def strangers_among(self, numbers: Iterable[str]) -> frozenset[str]:
        """Those of which no issued record was ever entered."""
        asked = [*numbers]
        self._enter_now(asked)
        return frozenset(number for (number,) in self._server.run(_STRANGERS, (asked,)))

    def _enter_now(self, numbers: Sequence[str]) -> None:
        """Only where one of these is issued in this transaction: who has the ledger's turn waits for nobody after."""
        if any(values[0] == ISSUED and values[2] in numbers for _, values in self._server.waiting):
            self._server.run_what_is_last()


def vouching_of(number: str) -> Asked:
    """What asks whether the issued record of a number was kept by this program."""
    return _VOUCHING, (number,)


def is_vouched_for(rows: Sequence[Row]) -> bool:
    """The answer to that: it was, and is as it was."""
    if not rows:
        return False
    seq, held_about, held, about, *values = rows[0]
    return (held_about, held) == (about, entry_of(ISSUED, seq, about, values))


def rows_of(server: LogServer, kind: str) -> Iterator[KeptRow]:
    """Every row of a table, oldest first, with what the ledger holds of it; edits that are folded come last."""
    key = f"{kind}.{KEYS[kind]}"
    asked = (
        f"SELECT {key}, ledger.about, ledger.sha, {_KEPT[kind]} {_held(kind)} WHERE {key} > %s ORDER BY {key} LIMIT %s"
    )
    for row, held_about, held, about, *values in _paged(server, asked):
        entry = entry_of(kind, row, about, values)
        yield KeptRow(row, about, entry, named_alike(held, about, held_about), tuple(values))
    for trail in folded_trails(server) if kind == EDIT else ():
        yield from folded_rows(trail, lambda edits: server.run(_HELD_OF, ([each.seq for each in edits],)))


def taken_out(server: LogServer, kind: str, seen: EditsSeen) -> Iterator[str]:
    """What rows were about that the ledger knows and are not there any more; of edits, what was not `seen` before."""
    if kind == EDIT:
        yield from seen.taken_out(lines_of(server))
        return
    key = f"{kind}.{KEYS[kind]}"
    for (about,) in server.run(
        f"SELECT DISTINCT about FROM ledger LEFT JOIN {kind} ON {key} = ledger.row"
        f" WHERE ledger.kind = '{kind}' AND {key} IS NULL"
    ):
        yield about


def lines_of(server: LogServer) -> Iterator[LedgerLine]:
    """Every line, in its order."""
    asked = "SELECT seq, kind, row, about, sha, chain FROM ledger WHERE seq > %s ORDER BY seq LIMIT %s"
    yield from map(LedgerLine._make, _paged(server, asked))


def heads_named(server: LogServer) -> dict[str, bytes]:
    """The head that each issued record says the log had before it; one issued with a laptop names that of its own log."""
    heads = dict[str, bytes]()
    for _, number, body in _paged(server, _BODIES, 100):
        # What is no record any more is told of as such.
        with suppress(ValueError, LookupError, TypeError):
            head = str(json.loads(body)["issued"]["head"])
            heads[number] = bytes.fromhex(head) if _WHOLE_HEAD.fullmatch(head) else head.encode()
    return {number: head for number, head in heads.items() if head}


def _held(kind: str) -> str:
    return f"LEFT JOIN ledger ON ledger.kind = '{kind}' AND ledger.row = {kind}.{KEYS[kind]}"


def _paged(server: LogServer, statement: str, page: int = _PAGE) -> Iterator[Row]:
    after = 0
    while rows := server.run(statement, (after, page)):
        yield from rows
        after = rows[-1][0]
