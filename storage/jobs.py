"""Jobs as the log holds them: begun, read whole, edited, taken a step back, corrected."""

from collections.abc import Callable, Iterable, Iterator
from datetime import datetime

from domain.duties.duty_facts import DutyFacts
from domain.editing.audit_text import audit_text, shortened
from domain.editing.commands import Command, Declined, Sign
from domain.editing.correction import correction_of
from domain.editing.reducer import apply
from domain.editing.undo import Edit, UndoStep, step_back, step_forward
from domain.gate.report_outcome import outcome_of
from domain.job.job import Job
from domain.log.job_log import JobLine, JobLogError, State
from domain.register.signing import declined
from storage.drafts import DraftEntry, begin, held, is_issued, keep, must_hold, note
from storage.log_file import LogFile
from storage.registers import people_named
from storage.rows import DATED, dated_from, edit_from


class Jobs:
    """What `SqliteJobLog` asks of the jobs in its file; every change is one write."""

    def __init__(self, file: LogFile) -> None:
        self._file = file

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
            after = self._declined(command) or apply(before.job, command)
            if not isinstance(after, Declined) and after != before.job:
                keep(self._file, before, after, DraftEntry(who, at, audit_text(before.job, command), command))
            return after

    def _declined(self, command: Command) -> Declined | None:
        return declined(command, people_named(self._file, (command.name,))) if isinstance(command, Sign) else None

    def undo(self, number: str, *, who: str, at: datetime) -> UndoStep | Declined:
        """Take back the last edit of this person that still stands, and note that in the trail."""
        return self._step(number, step_back, who=who, at=at, undoes=True)

    def redo(self, number: str, *, who: str, at: datetime) -> UndoStep | Declined:
        """Make the edit again that this person took back last."""
        return self._step(number, step_forward, who=who, at=at, undoes=False)

    def _step(
        self,
        number: str,
        take: Callable[[Job, Iterable[Edit]], UndoStep | Declined],
        *,
        who: str,
        at: datetime,
        undoes: bool,
    ) -> UndoStep | Declined:
        with self._file.writing():
            before = must_hold(self._file, number)
            rows = self._file.run(
                "SELECT version, what, changes, undoes, redoes FROM edit WHERE job_id = ? AND who = ? ORDER BY version",
                (before.id, who),
            )
            step = take(before.job, map(edit_from, rows))
            if not isinstance(step, Declined):
                over = (step.version, 0) if undoes else (0, step.version)
                keep(self._file, before, step.job, DraftEntry(who, at, step.says, undoes=over[0], redoes=over[1]))
            return step

    def load(self, number: str) -> Job | None:
        """The job with this number, issued or not."""
        found = held(self._file, number)
        return found.job if found else None

    def dated(self) -> Iterator[tuple[JobLine, DutyFacts]]:
        """Every job that was not replaced, with what its duties hang on."""
        return (dated_from(row) for row in self._file.run(DATED))

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
        """Note that what a report found has been put right, and by which papers."""
        with self._file.writing():
            report = must_hold(self._file, number)
            if report.state is not State.ISSUED or not outcome_of(report.job).is_to_put_right:
                raise JobLogError(f"{number} is no issued report with a C1, C2 or FI; there is nothing to put right.")
            self._file.run("UPDATE job SET put_right = 1 WHERE id = ?", (report.id,))
            note(self._file, report._replace(put_right=True), report.job, DraftEntry(who, at, f"Put right: {papers}"))
