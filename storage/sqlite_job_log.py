"""The job log in one SQLite file, beside the papers it issued."""

from collections.abc import Callable, Iterable, Iterator
from datetime import datetime
from pathlib import Path
from typing import Self

from domain.applying import apply
from domain.commands import Command, Declined
from domain.dated import Dated
from domain.gate import Outcome, Pack, Refusal, outcome_of
from domain.job import Job
from domain.job_log import Bound, Issued, JobLine, JobLogError, Jotting, Query, State, TrailLine
from domain.register.entries import Kept, Kind, RegisterEntry
from domain.replacing import correction_of
from domain.search_words import understood
from domain.spelling import corrected
from domain.stepping import Edit, Step, step_back, step_forward
from domain.trail import in_words, shortened
from storage.drafts import Entry, begin, held, is_issued, keep, must_hold, no_such_job, note
from storage.issue_register import IssueRegister
from storage.lines_anew import finish_migrating
from storage.log_file import LogFile
from storage.registers import keep_entry, registered, versions_of
from storage.rows import (
    DATED,
    LINE_COLUMNS,
    dated_from,
    edit_from,
    jotting_from,
    line_from,
    microseconds,
    trail_line_from,
)
from storage.search import PageEnd, statement_for
from storage.vocabulary import knows, near, words_begun


class SqliteJobLog:
    """Fulfils `domain.job_log.JobLog`. May be used by several threads and several programs at once."""

    def __init__(self, file: LogFile) -> None:
        self._file = file
        self._register = IssueRegister(file)

    @classmethod
    def open(cls, home: Path) -> Self:
        """The log in this folder; begun where there is none."""
        log = cls(LogFile.open(home))
        try:
            finish_migrating(log._file)
            log._register.recover()
        except BaseException:
            log.close()
            raise
        return log

    def create(self, job: Job, *, who: str, at: datetime) -> Job:
        """Keep a new job as a draft and give it its number."""
        with self._file.writing():
            return begin(self._file, job, who=who, at=at, what="Begun")

    def create_all(self, jobs: Iterable[Job], *, who: str, at: datetime) -> tuple[Job, ...]:
        """Keep several new jobs as drafts: every one of them, or none."""
        with self._file.writing():
            return tuple(begin(self._file, job, who=who, at=at, what="Begun") for job in jobs)

    def edit(self, number: str, command: Command, *, who: str, at: datetime) -> Job | Declined:
        """Apply a command to the job as it stands in the log, and keep both."""
        with self._file.writing():
            before = must_hold(self._file, number)
            after = apply(before.job, command)
            if not isinstance(after, Declined) and after != before.job:
                keep(self._file, before, after, Entry(who, at, in_words(before.job, command), command))
            return after

    def undo(self, number: str, *, who: str, at: datetime) -> Step | Declined:
        """Take back the last edit of this person that still stands, and note that in the trail."""
        return self._step(number, step_back, who=who, at=at, undoes=True)

    def redo(self, number: str, *, who: str, at: datetime) -> Step | Declined:
        """Make the edit again that this person took back last."""
        return self._step(number, step_forward, who=who, at=at, undoes=False)

    def _step(
        self,
        number: str,
        take: Callable[[Job, Iterable[Edit]], Step | Declined],
        *,
        who: str,
        at: datetime,
        undoes: bool,
    ) -> Step | Declined:
        with self._file.writing():
            before = must_hold(self._file, number)
            rows = self._file.run(
                "SELECT version, what, changes, undoes, redoes FROM edit WHERE job_id = ? AND who = ? ORDER BY version",
                (before.id, who),
            )
            step = take(before.job, map(edit_from, rows))
            if not isinstance(step, Declined):
                over = (step.version, 0) if undoes else (0, step.version)
                keep(self._file, before, step.job, Entry(who, at, step.says, undoes=over[0], redoes=over[1]))
            return step

    def load(self, number: str) -> Job | None:
        """The job with this number, issued or not."""
        found = held(self._file, number)
        return found.job if found else None

    def line(self, number: str) -> JobLine | None:
        """The log's line for a job."""
        row = self._file.first(f"SELECT {LINE_COLUMNS} FROM job WHERE number = ?", (number,))
        return line_from(row) if row else None

    def version(self, number: str) -> int:
        """How many edits a job has had; 0 when there is no such job."""
        row = self._file.first("SELECT version FROM job WHERE number = ?", (number,))
        return row[0] if row else 0

    def pulse(self) -> int:
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

    def dated(self) -> Iterator[tuple[JobLine, Dated]]:
        """Every job that was not replaced, with what its duties hang on."""
        return (dated_from(row) for row in self._file.run(DATED))

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
        self, number: str, *, by: str, at: datetime, bind: Callable[[Pack], Bound], seen: str = ""
    ) -> Issued | Refusal:
        """Pass the gate with the job as it stands, bind it, keep the paper, and close the job. All or nothing."""
        return self._register.issue(number, by=by, at=at, bind=bind, seen=seen)

    def issued(self, number: str) -> Issued | None:
        """The paper a job was issued as."""
        return self._register.issued(number)

    def replace(self, number: str, *, because: str, who: str, at: datetime) -> Job | Declined:
        """Begin a correction: a new draft, like the issued job, that names the one it will replace, and why."""
        with self._file.writing():
            old = must_hold(self._file, number)
            row = self._file.first("SELECT number FROM job WHERE replaces = ?", (old.id,))
            if old.state is State.REPLACED and row:
                return Declined(says=f"{number} has been replaced by {row[0]}; correct that one")
            if row:
                return Declined(says=f"{row[0]} is being made to replace {number} already; go on with that one")
            if not is_issued(old.state):
                return Declined(says=f"{number} has not been issued; change it as it is")
            draft = correction_of(old.job, because)
            if isinstance(draft, Declined):
                return draft
            what = f"Begun to replace {number} because: {shortened(draft.replaces_because)}"
            return begin(self._file, draft, who=who, at=at, what=what, replaces=old.id)

    def note_put_right(self, number: str, papers: str, *, who: str, at: datetime) -> None:
        """Note that what an unsatisfactory report found has been put right, and by which papers."""
        with self._file.writing():
            report = must_hold(self._file, number)
            if report.state is not State.ISSUED or outcome_of(report.job) is not Outcome.UNSATISFACTORY:
                raise JobLogError(f"{number} is no report issued as unsatisfactory; there is nothing to put right.")
            self._file.run("UPDATE job SET put_right = 1 WHERE id = ?", (report.id,))
            note(self._file, report._replace(put_right=True), report.job, Entry(who, at, f"Put right: {papers}"))

    def head(self) -> str:
        """The chain over all issued papers, in hexadecimal."""
        return self._register.head().hex()

    def remember(self, number: str, where: str, *, who: str) -> None:
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

    def left_at(self, number: str, *, who: str) -> str:
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

    def jot(self, topic: str, text: str, *, who: str, at: datetime) -> None:
        """Keep something of a person, after all that was kept before."""
        with self._file.writing():
            self._file.run(
                "INSERT INTO jotting (topic, who, at, text) VALUES (?, ?, ?, ?)", (topic, who, microseconds(at), text)
            )

    def jottings(self, topic: str, *, who: str = "") -> tuple[Jotting, ...]:
        """What was kept under a topic, oldest first; of everybody when nobody is named."""
        rows = self._file.run(
            "SELECT at, who, text FROM jotting WHERE topic = :topic AND :who IN ('', who) ORDER BY id",
            {"topic": topic, "who": who},
        )
        return tuple(jotting_from(row) for row in rows)

    def register(
        self, entry: RegisterEntry, *, entry_id: str = "", who: str, at: datetime, retired: bool = False
    ) -> Kept:
        """Keep a new entry of a register, or another version of the one with this id."""
        with self._file.writing():
            return keep_entry(self._file, entry, entry_id=entry_id, who=who, at=at, retired=retired)

    def registered(self, kind: Kind, words: str = "", *, retired: bool = False, limit: int = 50) -> tuple[Kept, ...]:
        """Entries of a register as they are now, by their titles."""
        return registered(self._file, kind, words, retired=retired, limit=limit)

    def versions_of(self, entry_id: str) -> tuple[Kept, ...]:
        """Every version of an entry, oldest first."""
        return versions_of(self._file, entry_id)

    def close(self) -> None:
        """Let go of the files."""
        self._file.close()
