"""The job log in one SQLite file, beside the papers it issued."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from datetime import datetime
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Self

from domain.log.job_log import JobLine, Query, TrailLine
from domain.log.search_words import understood
from domain.log.spelling import corrected
from domain.log_note import LogNote
from storage.errors import as_job_log_error, no_such_job
from storage.issued_papers import IssuedPapers
from storage.line_rows import LINE_COLUMNS, line_from, microseconds, note_from, trail_line_from
from storage.log_file import LogFile
from storage.search import PageEnd, statement_for
from storage.vocabulary import knows, near, words_begun

if TYPE_CHECKING:
    from domain.duties.duty_facts import DutyFacts
    from domain.editing.commands import Command, Declined
    from domain.editing.undo import UndoStep
    from domain.gate.assessment import Pack, Refusal
    from domain.gate.issued_paper import IssuedPaper
    from domain.job.job import Job
    from domain.log.job_log import BoundPaper
    from domain.register.entries import Kept, Person, RegisterEntry, RegisterKind
    from storage.issue_register import IssueRegister
    from storage.jobs import Jobs
    from storage.registers import Registers


class SqliteJobLog:
    """Fulfils `domain.log.job_log.JobLog`. May be used by several threads and several programs at once.

    Lines of the log are read here. What needs jobs as a whole is loaded when it is first asked for, so that the
    list a person begins with need not wait for it.
    """

    def __init__(self, file: LogFile) -> None:
        self._file = file

    @classmethod
    def open(cls, home: Path) -> Self:
        """The log in this folder; begun where there is none."""
        log = cls(LogFile.open(home))
        try:
            log._finish_what_was_begun()
        except BaseException:
            log.close()
            raise
        return log

    def _finish_what_was_begun(self) -> None:
        """Finish a migration, and an issue that a program ended in the middle of."""
        if self._file.first("SELECT 1 FROM chore"):
            from storage.reindex import finish_migrating

            finish_migrating(self._file)
        try:
            unfinished = IssuedPapers(self._file.home).unfinished()
        except OSError as trouble:
            raise as_job_log_error(trouble, self._file.home) from trouble
        if unfinished:
            self._register.recover()

    @cached_property
    def _jobs(self) -> Jobs:
        from storage.jobs import Jobs

        return Jobs(self._file)

    @cached_property
    def _register(self) -> IssueRegister:
        from storage.issue_register import IssueRegister

        return IssueRegister(self._file)

    @cached_property
    def _registers(self) -> Registers:
        from storage.registers import Registers

        return Registers(self._file)

    def create(self, job: Job, *, who: str, at: datetime) -> Job:
        """Keep a new job as a draft and give it its number."""
        return self._jobs.create(job, who=who, at=at)

    def create_all(self, jobs: Iterable[Job], *, who: str, at: datetime) -> tuple[Job, ...]:
        """Keep several new jobs as drafts: every one of them, or none."""
        return self._jobs.create_all(jobs, who=who, at=at)

    def edit(self, number: str, command: Command, *, who: str, at: datetime) -> Job | Declined:
        """Apply a command to the job as it stands in the log, and keep both."""
        return self._jobs.edit(number, command, who=who, at=at)

    def undo(self, number: str, *, who: str, at: datetime) -> UndoStep | Declined:
        """Take back the last edit of this person that still stands, and note that in the trail."""
        return self._jobs.undo(number, who=who, at=at)

    def redo(self, number: str, *, who: str, at: datetime) -> UndoStep | Declined:
        """Make the edit again that this person took back last."""
        return self._jobs.redo(number, who=who, at=at)

    def load(self, number: str) -> Job | None:
        """The job with this number, issued or not."""
        return self._jobs.load(number)

    def line(self, number: str) -> JobLine | None:
        """The log's line for a job."""
        row = self._file.first(f"SELECT {LINE_COLUMNS} FROM job WHERE number = ?", (number,))
        return line_from(row) if row else None

    def version(self, number: str) -> int:
        """How many edits a job has had; 0 when there is no such job."""
        row = self._file.first("SELECT version FROM job WHERE number = ?", (number,))
        return row[0] if row else 0

    def data_version(self) -> int:
        """Another number once another program may have changed the log."""
        ((now,),) = self._file.run("PRAGMA data_version")
        return now

    def find(self, query: Query) -> tuple[JobLine, ...]:
        """What matches, newest first."""
        before = None
        if query.before:
            row = self._file.first("SELECT updated, id, due FROM job WHERE number = ?", (query.before,))
            if row is None:
                raise no_such_job(query.before)
            before = PageEnd(*row)
        file = self._file
        statement, values = statement_for(understood(query), before, lambda beginning: words_begun(file, beginning))
        return tuple(line_from(row) for row in self._file.run(statement, values))

    def dated(self) -> Iterator[tuple[JobLine, DutyFacts]]:
        """Every job that was not replaced, with what its duties hang on."""
        return self._jobs.dated()

    def corrected(self, query: Query) -> Query | None:
        """The query with words that no job holds put right by one letter."""
        file = self._file
        return corrected(query, lambda word, begun: knows(file, word, begun=begun), lambda word: near(file, word))

    def trail(self, number: str, *, after: int = 0) -> tuple[TrailLine, ...]:
        """The edits of a job that came after a version, oldest first."""
        rows = self._file.run(
            "SELECT version, at, who, what, command FROM edit"
            " WHERE job_id = (SELECT id FROM job WHERE number = ?) AND version > ? ORDER BY version",
            (number, after),
        )
        return tuple(trail_line_from(row) for row in rows)

    def issue(
        self, number: str, *, by: str, at: datetime, bind: Callable[[Pack], BoundPaper], seen: str = ""
    ) -> IssuedPaper | Refusal:
        """Pass the gate with the job as it stands, bind it, keep the paper, and close the job. All or nothing."""
        return self._register.issue(number, by=by, at=at, bind=bind, seen=seen)

    def issued(self, number: str) -> IssuedPaper | None:
        """The paper a job was issued as."""
        return self._register.issued(number)

    def replace(self, number: str, *, because: str, who: str, at: datetime) -> Job | Declined:
        """Begin a correction: a new draft, like the issued job, that names the one it will replace, and why."""
        return self._jobs.replace(number, because=because, who=who, at=at)

    def note_put_right(self, number: str, papers: str, *, who: str, at: datetime) -> None:
        """Note that what an unsatisfactory report found has been put right, and by which papers."""
        self._jobs.note_put_right(number, papers, who=who, at=at)

    def chain_head(self) -> str:
        """The chain over all issued papers, in hexadecimal."""
        return self._register.chain_head().hex()

    def save_position(self, number: str, where: str, *, who: str) -> None:
        """Note where somebody left a job, so that it opens there."""
        with self._file.writing():
            if not self._file.run(
                "INSERT INTO left_off (who, job_id, place, turn)"
                " SELECT :who, id, :place, 1 + (SELECT coalesce(max(turn), 0) FROM left_off WHERE who = :who)"
                " FROM job WHERE number = :number"
                " ON CONFLICT (who, job_id) DO UPDATE SET place = excluded.place, turn = excluded.turn RETURNING turn",
                {"who": who, "place": where, "number": number},
            ):
                raise no_such_job(number)

    def position(self, number: str, *, who: str) -> str:
        """Where that was; "" when never opened."""
        row = self._file.first(
            "SELECT place FROM left_off WHERE who = ? AND job_id = (SELECT id FROM job WHERE number = ?)",
            (who, number),
        )
        return row[0] if row else ""

    def last_opened(self, *, who: str) -> str:
        """Number of the job somebody was in last; "" when there is none."""
        row = self._file.first(
            "SELECT job.number FROM left_off JOIN job ON job.id = left_off.job_id"
            " WHERE left_off.who = ? ORDER BY left_off.turn DESC LIMIT 1",
            (who,),
        )
        return row[0] if row else ""

    def add_note(self, topic: str, text: str, *, who: str, at: datetime) -> None:
        """Keep something of a person, after all that was kept before."""
        with self._file.writing():
            self._file.run(
                "INSERT INTO jotting (topic, who, at, text) VALUES (?, ?, ?, ?)", (topic, who, microseconds(at), text)
            )

    def notes(self, topic: str, *, who: str = "") -> tuple[LogNote, ...]:
        """What was kept under a topic, oldest first; of everybody when nobody is named."""
        rows = self._file.run(
            "SELECT at, who, text FROM jotting WHERE topic = :topic AND :who IN ('', who) ORDER BY id",
            {"topic": topic, "who": who},
        )
        return tuple(note_from(row) for row in rows)

    def register(
        self, entry: RegisterEntry, *, entry_id: str = "", who: str, at: datetime, retired: bool = False
    ) -> Kept:
        """Keep a new entry of a register, or another version of the one with this id."""
        return self._registers.keep(entry, entry_id=entry_id, who=who, at=at, retired=retired)

    def registered(
        self, kind: RegisterKind, words: str = "", *, retired: bool = False, limit: int = 50
    ) -> tuple[Kept, ...]:
        """Entries of a register as they are now, by their titles."""
        return self._registers.entries(kind, words, retired=retired, limit=limit)

    def people_named(self, names: Iterable[str]) -> tuple[Person, ...]:
        """Those of the register of people, as it is now, who have one of these names."""
        return self._registers.people_named(names)

    def versions_of(self, entry_id: str) -> tuple[Kept, ...]:
        """Every version of an entry, oldest first."""
        return self._registers.versions_of(entry_id)

    def close(self) -> None:
        """Let go of the files."""
        self._file.close()
