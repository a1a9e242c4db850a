"""The register of issued papers in SQLite: records in the file, each paper as a file beside it."""

from collections.abc import Callable
from contextlib import suppress
from datetime import datetime

from domain.log.chain import NO_RECORD
from domain.log.job_log import JobLogError
from domain.log.store import IssuedRecord
from storage.errors import as_job_log_error, not_issued_here
from storage.issued_papers import IssuedPapers
from storage.ledger import enter, vouches_for
from storage.ledger_entries import ISSUED
from storage.line_rows import microseconds, moment
from storage.log_file import LogFile

_RECORD = "number, body, sha, chain, pdf_sha, pages, coalesce(replaces, ''), issued_by, issued_at"


class IssueRegister:
    """Fulfils `domain.log.store.PaperStore`. Append-only; additions are made inside a write of the file."""

    def __init__(self, file: LogFile, placing: Callable[[str], None]) -> None:
        """`placing` is told the number of a paper before anything of it is put on disk."""
        self._file = file
        self._papers = IssuedPapers(file.home)
        self._placing = placing

    def add(self, record: IssuedRecord, pdf: bytes) -> None:
        """Put the paper in its place, and its record into the file."""
        self._finish()
        self._placing(record.number)
        self._papers.place(record.number, pdf)
        ((seq,),) = self._file.run(
            "INSERT INTO issued (job_id, number, body, sha, chain, pdf_sha, pages, replaces, issued_by, issued_at)"
            " VALUES ((SELECT id FROM job WHERE number = ?1), ?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9) RETURNING seq",
            (*record[:6], record.replaces or None, record.by, microseconds(record.at)),
        )
        enter(self._file, ISSUED, seq)

    def record(self, number: str) -> IssuedRecord | None:
        """The record of an issued job."""
        row = self._file.first(f"SELECT {_RECORD} FROM issued WHERE number = ?", (number,))
        if row and not vouches_for(self._file, number):
            raise not_issued_here(number)
        return IssuedRecord(*row[:8], at=moment(row[8])) if row else None

    def pdf(self, number: str) -> bytes:
        """The paper as it lies beside the file."""
        try:
            return self._papers.read(number)
        except OSError as trouble:
            path = self._papers.path(number)
            raise JobLogError(
                f"{path} cannot be read: {trouble.strerror or trouble}. Restore it from a copy."
            ) from trouble

    def kept_in(self, number: str) -> str:
        """The path of the paper."""
        return str(self._papers.path(number))

    def head(self) -> bytes:
        """The chain over all records; zeros while there is none."""
        last = self._file.first("SELECT chain FROM issued ORDER BY seq DESC LIMIT 1")
        return last[0] if last else NO_RECORD

    def last(self) -> tuple[str, datetime] | None:
        """The number and moment of the record that was added last."""
        row = self._file.first("SELECT number, issued_at FROM issued ORDER BY seq DESC LIMIT 1")
        return (row[0], moment(row[1])) if row else None

    def settle(self, number: str) -> None:
        """The write that added this paper is on disk. Where this fails, the next one to add or to open does it."""
        with suppress(OSError):
            self._papers.settle(number)

    def recover(self) -> None:
        """Tidy up after an addition that ended in the middle: the paper stays or goes with its record."""
        try:
            if self._papers.unfinished():
                with self._file.writing():
                    self._finish()
        except OSError as trouble:
            raise as_job_log_error(trouble, self._file.home) from trouble

    def _finish(self) -> None:
        for number in self._papers.unfinished():
            if self._file.first("SELECT 1 FROM issued WHERE number = ?", (number,)):
                # Another file that has its name is no reason not to open the log; `tend` names it.
                with suppress(FileExistsError):
                    self._papers.settle(number)
            else:
                self._papers.take_back(number)
