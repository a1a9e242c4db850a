"""What a job log is kept in, as one SQLite file beside the papers issued from it."""

from __future__ import annotations

import json
from collections.abc import Callable, Generator, Iterable, Mapping, Sequence
from contextlib import contextmanager, suppress
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Self

from domain.log.chain import NO_RECORD
from domain.log.job_log import JobLine, JobLogError, Query, State, TrailLine, no_such_job
from domain.log.numbering import Numbering
from storage.errors import as_job_log_error
from storage.issued_papers import IssuedPapers
from storage.ledger import end_of, strangers_among
from storage.line_rows import LINE_COLUMNS, line_from, trail_line_from
from storage.log_file import LogFile
from storage.notes import SqliteNotes
from storage.opening import open_log
from storage.search import PageEnd, any_of, statement_for
from storage.vocabulary import near, words_begun

if TYPE_CHECKING:
    from domain.editing.undo import Edit
    from domain.log.log_line import Findable
    from domain.log.sought import Sought
    from domain.log.store import EditMade, StoredJob, TrailEntry
    from storage.duties import SqliteDuties
    from storage.issue_register import IssueRegister
    from storage.jobs import SqliteJobs
    from storage.registers import SqliteRegisters
    from storage.sqlite_exchange import SqliteExchange


_OPERATION = """
SELECT number, edit.version FROM edit JOIN job ON job.id = job_id WHERE op = ?1
UNION ALL SELECT number, 1 FROM folded_trail JOIN job ON job.id = job_id WHERE begun_as = ?1
"""


class SqliteStore:
    """Fulfils `domain.log.store.Store`. May be used by several threads and several programs at once.

    Lines of the log are read here. What needs jobs as a whole is loaded when it is first asked for.
    """

    def __init__(self, file: LogFile) -> None:
        self._file = file
        self._placed: list[str] = []
        self._recorded: dict[str, int] = {}
        self.stamped: Callable[[Mapping[str, int]], object] = dict
        """Told, once it is on disk, how far this device has come with what it tells others."""
        self.notes = SqliteNotes(file)

    @classmethod
    def open(cls, home: Path, waiting: Callable[[str], None] | None = None) -> Self:
        """The store in this folder; begun where there is none. `waiting` is told of another program that holds it."""
        store = cls(open_log(home, waiting))
        try:
            store._finish_what_was_begun()
        except BaseException:
            store.close()
            raise
        return store

    def _finish_what_was_begun(self) -> None:
        """Finish a migration, and an issue that a program ended in the middle of."""
        if self._file.refuses or not self._file.in_turn:
            return
        if self._file.first("SELECT 1 FROM pending_task"):
            from storage.reindex import finish_migrating

            finish_migrating(self._file)
        try:
            unfinished = IssuedPapers(self._file.home).unfinished()
        except OSError as trouble:
            raise as_job_log_error(trouble, self._file.home) from trouble
        if unfinished:
            self._papers.recover()

    @cached_property
    def _jobs(self) -> SqliteJobs:
        from storage.jobs import SqliteJobs

        return SqliteJobs(self._file)

    @cached_property
    def _papers(self) -> IssueRegister:
        from storage.issue_register import IssueRegister

        return IssueRegister(self._file, lambda number: self._placed.append(number))

    @cached_property
    def _duties(self) -> SqliteDuties:
        from storage.duties import SqliteDuties

        return SqliteDuties(self._file)

    @cached_property
    def _registers(self) -> SqliteRegisters:
        from storage.registers import SqliteRegisters

        return SqliteRegisters(self._file)

    @cached_property
    def _exchange(self) -> SqliteExchange:
        from storage.sqlite_exchange import SqliteExchange

        return SqliteExchange(self._file, self._recorded.__setitem__)

    @property
    def exchange(self) -> SqliteExchange:
        """What an office and its laptops tell each other."""
        return self._exchange

    @property
    def is_of_firm(self) -> bool:
        """It is the log of an office with laptops, or of a laptop."""
        return self._file.first("SELECT 1 FROM station LIMIT 1") is not None

    @property
    def papers(self) -> IssueRegister:
        """Issued papers."""
        return self._papers

    @property
    def duties(self) -> SqliteDuties:
        """The days that duties are due."""
        return self._duties

    @property
    def registers(self) -> SqliteRegisters:
        """The registers."""
        return self._registers

    @contextmanager
    def transaction(self, *numbers: str) -> Generator[None]:  # noqa: ARG002
        """One write. Everybody else waits until it ends, whatever job theirs is about."""
        placed: list[str] = []
        try:
            with self._file.writing():
                # Whoever writes has the turn of this file, so the list is theirs.
                self._placed = placed
                self._recorded.clear()
                yield
        except BaseException:
            if placed:
                # Where even this fails, the next opening of the log does it.
                with suppress(JobLogError):
                    self._papers.recover()
            raise
        if self._recorded:
            self.stamped(self._recorded)
        for number in placed:
            self._papers.settle(number)

    def next_number(self) -> str:
        """Give the next number of this machine."""
        ((prefix, counter),) = self._file.run(
            "UPDATE device SET next_number = next_number + 1 WHERE is_here = 1 RETURNING prefix, next_number - 1"
        )
        return f"{prefix}-{counter:04d}"

    def numbering(self) -> Numbering:
        """How this machine numbers jobs."""
        ((prefix, device, following),) = self._file.run("SELECT prefix, id, next_number FROM device WHERE is_here = 1")
        return Numbering(prefix, device, following - 1)

    def begin_numbers(self, prefix: str) -> bool:
        """Begin numbers with these letters, where none was given."""
        rows = self._file.run(
            "UPDATE device SET prefix = ?1 WHERE is_here = 1 AND next_number = 1"
            " AND NOT EXISTS (SELECT 1 FROM device WHERE prefix = ?1 AND is_here = 0) RETURNING prefix",
            (prefix,),
        )
        return bool(rows)

    def get(self, number: str) -> StoredJob | None:
        """The job with this number as it stands."""
        return self._jobs.get(number)

    def put(self, stored: StoredJob, line: JobLine, *entries: TrailEntry) -> None:
        """Keep a job as it stands now with its line and search words, and add to its trail."""
        self._jobs.put(stored, line, *entries)

    def operation(self, op: str, number: str = "") -> EditMade | None:
        """The edit that is kept under this name."""
        from domain.log.store import EditMade
        from storage.trails import folded_of

        if row := self._file.first(_OPERATION, (op,)):
            return EditMade(*row)
        before = folded_of(self._file, number) if number else []
        return next((EditMade(number, each.version) for each in before if each.op == op), None)

    def edits(self, number: str, who: str) -> Iterable[Edit]:
        """What somebody did to a job, oldest first."""
        return self._jobs.edits(number, who)

    def trail(self, number: str, after: int) -> tuple[TrailLine, ...]:
        """The edits of a job that came after a version, oldest first."""
        from storage.trails import trail_of

        return tuple(map(trail_line_from, trail_of(self._file, number, after)))

    def line(self, number: str) -> JobLine | None:
        """The line of a job."""
        row = self._file.first(f"SELECT {LINE_COLUMNS} FROM job WHERE number = ?", (number,))
        return next(iter(self._vouched([line_from(row)] if row else [])), None)

    def version(self, number: str) -> int:
        """How many edits a job has had; 0 when there is no such job."""
        row = self._file.first("SELECT version FROM job WHERE number = ?", (number,))
        return row[0] if row else 0

    def find(self, query: Query, sought: Sequence[Sequence[Sought]] = ()) -> tuple[JobLine, ...]:
        """What an understood query asks for, the one touched last first."""
        before = None
        if query.before:
            row = self._file.first("SELECT updated, id, due FROM job WHERE number = ?", (query.before,))
            if row is None:
                raise no_such_job(query.before)
            before = PageEnd(*row)
        statement, values = statement_for(query, before, lambda beginning: words_begun(self._file, beginning), sought)
        return self._vouched([line_from(row) for row in self._file.run(statement, values)])

    def _vouched(self, lines: list[JobLine]) -> tuple[JobLine, ...]:
        """Lines, with those marked that the log shows as issued and this program never issued."""
        issued = [line.number for line in lines if line.state in {State.ISSUED, State.REPLACED}]
        strange = strangers_among(self._file, issued) if issued else ()
        return tuple(line.model_copy(update={"vouched": False}) if line.number in strange else line for line in lines)

    def counts(self, things: Sequence[Sequence[Sought]], most: int) -> tuple[int, ...]:
        """How many jobs hold each of these in one of its ways; no more than `most` are counted."""
        return tuple(self._count(ways, most) for ways in things)

    def _count(self, ways: Sequence[Sought], most: int) -> int:
        match = any_of(ways, lambda beginning: words_begun(self._file, beginning))
        counted = "SELECT count(*) FROM (SELECT 1 FROM job_fts WHERE job_fts MATCH ? LIMIT ?)"
        ((jobs,),) = self._file.run(counted, (match, most))
        return jobs

    def held(self, numbers: Sequence[str]) -> Mapping[str, Findable]:
        """What each of these jobs is found by."""
        from storage.search_text import findable_in

        rows = self._file.run(
            "SELECT number, job_text.client, place, other, facets FROM job JOIN job_text USING (id)"
            " WHERE number IN (SELECT value FROM json_each(?))",
            (json.dumps(numbers),),
        )
        return {number: findable_in(*texts) for number, *texts in rows}

    def near(self, words: Sequence[str]) -> Mapping[str, Sequence[str]]:
        """By each word those that share a gap with it."""
        return {word: near(self._file, word) for word in words}

    def data_version(self) -> int:
        """Another number once another program may have changed the log."""
        ((now,),) = self._file.run("PRAGMA data_version")
        return now

    def head(self) -> bytes:
        """The head of the ledger."""
        return end_of(self._file).head

    def had_head(self, head: bytes) -> bool:
        """The ledger was at this once."""
        # Papers issued before there was a ledger print the chain over the records.
        known = "SELECT 1 FROM ledger WHERE chain = ?1 UNION ALL SELECT 1 FROM issued WHERE chain = ?1"
        return head == NO_RECORD or self._file.first(known, (head,)) is not None

    def refuses(self) -> str:
        """Why the file is open for reading alone."""
        return self._file.refuses

    def close(self) -> None:
        """Let go of the files."""
        self._file.close()
