"""Issued papers on a server: each in the transaction of its record, so that neither is ever there alone."""

from datetime import datetime

from domain.log.chain import NO_RECORD
from domain.log.job_log import JobLogError
from domain.log.store import IssuedRecord
from storage.errors import not_issued_here
from storage.ledger_entries import ISSUED
from storage.line_rows import microseconds, moment
from storage.postgres.log_server import LogServer
from storage.postgres.postgres_ledger import PostgresLedger

_RECORD = "number, body, sha, chain, pdf_sha, pages, coalesce(replaces, ''), issued_by, issued_at"
_ADD = """
INSERT INTO issued (seq, job_id, number, body, sha, chain, pdf_sha, pages, replaces, issued_by, issued_at)
SELECT (SELECT 1 + coalesce(max(seq), 0) FROM issued), id, number, %s, %s, %s, %s, %s, %s, %s, %s
FROM job WHERE number = %s RETURNING seq
"""
_TURN = "SELECT pg_advisory_xact_lock(hashtext('ohmfolio chain'), hashtext(%s))"


class PostgresPapers:
    """Fulfils `domain.log.store.PaperStore`. Append-only; additions are made inside a transaction."""

    def __init__(self, server: LogServer) -> None:
        self._server = server
        self._ledger = PostgresLedger(server)

    def add(self, record: IssuedRecord, pdf: bytes) -> None:
        """Keep a paper and its record."""
        self._take_turn()
        values = (*record[1:6], record.replaces or None, record.by, microseconds(record.at), record.number)
        ((seq,),) = self._server.run(_ADD, values)
        self._server.run("INSERT INTO paper (number, pdf) VALUES (%s, %s)", (record.number, pdf))
        hashes = (each.hex().upper() for each in (record.sha, record.chain, record.pdf_sha))
        kept = (record.number, *hashes, record.pages, record.replaces or None, record.by, microseconds(record.at))
        self._ledger.enter(ISSUED, seq, record.number, kept)

    def record(self, number: str) -> IssuedRecord | None:
        """The record of an issued job."""
        if "\0" in number:
            return None
        row = self._server.first(f"SELECT {_RECORD} FROM issued WHERE number = %s", (number,))
        if row and not self._ledger.vouches_for(number):
            raise not_issued_here(number)
        return IssuedRecord(*row[:8], at=moment(row[8])) if row else None

    def pdf(self, number: str) -> bytes:
        """The paper as it was bound."""
        row = self._server.first("SELECT pdf FROM paper WHERE number = %s", (number,))
        if row is None:
            raise JobLogError(f"The paper of {number} is not in the log any more. Restore the log from a copy.")
        return row[0]

    def kept_in(self, number: str) -> str:  # noqa: ARG002
        """In no file of its own."""
        return ""

    def head(self) -> bytes:
        """The chain over all records; zeros while there is none. Inside a transaction nobody else adds to it until it ends."""
        if self._server.in_transaction:
            self._take_turn()
        last = self._server.first("SELECT chain FROM issued ORDER BY seq DESC LIMIT 1")
        return last[0] if last else NO_RECORD

    def last(self) -> tuple[str, datetime] | None:
        """The number and moment of the record that was added last."""
        row = self._server.first("SELECT number, issued_at FROM issued ORDER BY seq DESC LIMIT 1")
        return (row[0], moment(row[1])) if row else None

    def _take_turn(self) -> None:
        self._server.run(_TURN, (self._server.address.schema,))
