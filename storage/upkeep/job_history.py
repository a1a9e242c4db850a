"""Whether a job is what its trail gives and its line says what it holds; an issued one also what the gate let pass."""

from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import NamedTuple

from pydantic import ValidationError

from domain.duties.noted import TOPIC
from domain.editing.commands import COMMAND
from domain.gate.held_again import held_again
from domain.job.job import Job
from domain.log.due_list import job_duties
from domain.log.job_log import JobLine, JobLogError, State
from domain.log.replay import BEGUN_TO_REPLACE, ISSUED, REPLACED_BY, TrailStep, leads_to
from domain.log.upkeep import Concern, LogFault, Unproven
from storage.duties import are_by_rules_of_today, duties_held
from storage.errors import DamagedError
from storage.jobs import require
from storage.ledger import turn_of
from storage.ledger_entries import ISSUED as RECORD
from storage.line_rows import LINE_COLUMNS, line_from, microseconds
from storage.log_file import LogFile
from storage.notes import SqliteNotes
from storage.reindex import expected_line, replaced_by
from storage.rows import edit_from
from storage.search_text import text_values
from storage.set_by import set_by
from storage.trail_block import EditRow
from storage.trails import trail_of
from storage.upkeep.people_then import PeopleThen
from storage.upkeep.whole_file import GO_BACK

REBUILD = "Have it made anew from the jobs: `ohmfolio tend --mend`."
_FIELDS = {
    "client": "client",
    "premises": "premises",
    "form_set": "form set",
    "state": "state",
    "outcome": "outcome",
    "open_snags": "open snags",
    "updated": "when it was touched last",
    "due": "when the next inspection is due",
    "put_right": "whether it was put right",
    "day": "the day of the work or the inspection",
    "laid_aside": "whether it is laid aside",
}


class _Done(NamedTuple):
    """One edit of a trail as it is kept."""

    step: TrailStep
    at: int
    what: str
    begun: str


class _Trail:
    """The trail of one job, read once."""

    def __init__(self, file: LogFile, number: str) -> None:
        self.done = [_done_from(row) for row in trail_of(file, number)]

    def says(self, beginning: str) -> _Done | None:
        """The last edit that this program made by itself and told so."""
        by_itself = (each for each in reversed(self.done) if not (each.step.command or each.step.edit.changes))
        return next((each for each in by_itself if each.what.startswith(beginning)), None)

    def gives(self, job: Job) -> bool:
        """The edits, made again, lead to the job."""
        first, *rest = self.done
        if not first.begun or any(each.begun for each in rest):
            return False
        return leads_to(Job.model_validate_json(first.begun), [each.step for each in rest], job)


def _done_from(row: EditRow) -> _Done:
    done = COMMAND.validate_json(row.command) if row.command else None
    return _Done(TrailStep(edit_from(row), row.who, done), row.at, row.what, row.begun or "")


class JobLook(NamedTuple):
    """What came of looking at one job."""

    number: str
    found: tuple[LogFault | Unproven, ...]
    is_astray: bool
    """It is not found by its words."""
    mark: bytes = b""
    """Of all that it hung on when it was looked at; b"" where that is what the marks of this look say."""


def looks_at(file: LogFile, numbers: Iterable[str]) -> Iterator[JobLook]:
    """A look at each of these jobs, their trails and their lines."""
    looked_at = _JobHistories(file)
    for number in numbers:
        yield JobLook(number, tuple(looked_at.faults_of(number)), looked_at.is_astray)


class _JobHistories:
    """Looks at one job after the other."""

    def __init__(self, file: LogFile) -> None:
        self._file = file
        self._people = PeopleThen(file)
        self._ours = set_by()
        self.is_astray = False
        """The job looked at last is not found by its words."""
        # By other rules they are counted anew, once they are asked for.
        self._days_are_written = are_by_rules_of_today(file)

    def faults_of(self, number: str) -> Iterator[LogFault | Unproven]:
        """Everything that is wrong with a job, its trail and its line."""
        self.is_astray = False
        try:
            stored = require(self._file, number).job
        except JobLogError:
            if not self._file.first("SELECT 1 FROM issued WHERE number = ?", (number,)):
                says = f"The draft {number} is not as it was saved."
                yield LogFault(about=Concern.DRAFTS, says=says, do=GO_BACK, jobs=(number,))
            return
        yield from self._faults_of(number, stored)

    def _faults_of(self, number: str, job: Job) -> Iterator[LogFault | Unproven]:
        try:
            trail = _Trail(self._file, number)
        except (ValidationError, DamagedError):
            yield _trail_fault(number, f"The trail of {number} holds an edit that this program never kept.")
            return
        if not trail.done:
            return
        if job.number != number:
            yield _fault_of(number, job, f"What stands in the log as {number} is {job.number or 'no job of this log'}.")
            return
        yield from self._faults_of_trail(number, job, trail)
        if job.issued:
            yield from self._faults_of_issue(number, job, trail)
        line = expected_line(self._file, number, job)
        yield from self._faults_of_line(number, line)
        yield from self._faults_of_duties(number, job, line)
        self.is_astray = not self._is_found_by_its_words(number, job, line)

    def _faults_of_trail(self, number: str, job: Job, trail: _Trail) -> Iterator[LogFault]:
        try:
            gives = trail.gives(job)
        except ValidationError:
            gives = False
        if not gives:
            yield _fault_of(number, job, f"{_called(number, job)} is not what its trail gives.")
        ((replaces,),) = self._file.run(
            "SELECT coalesce((SELECT old.number FROM job AS old WHERE old.id = job.replaces), '') FROM job"
            " WHERE number = ?",
            (number,),
        )
        begun = trail.done[0].what
        told_so = begun.removeprefix(BEGUN_TO_REPLACE).partition(" ")[0] if begun.startswith(BEGUN_TO_REPLACE) else ""
        if not replaces == told_so == job.replaces:
            yield _fault_of(
                number, job, f"{_called(number, job)} and its trail do not name the same job as the one it replaces."
            )

    def _faults_of_issue(self, number: str, job: Job, trail: _Trail) -> Iterator[LogFault | Unproven]:
        assert job.issued is not None
        seq, by, at, replaces = self._file.run(
            "SELECT seq, issued_by, issued_at, coalesce(replaces, '') FROM issued WHERE number = ?", (number,)
        )[0]
        stamp = (job.issued.by, microseconds(job.issued.at))
        said = trail.says(ISSUED)
        if stamp != (by, at) or said is None or (said.step.who, said.at) != stamp or replaces != job.replaces:
            says = f"The record of {number}, its trail and the log do not say the same of who issued it, when, in whose place."
            yield _fault_of(number, job, says)
        later = replaced_by(self._file, number)
        told_so = trail.says(REPLACED_BY)
        if (told_so.what.removeprefix(REPLACED_BY) if told_so else "") != later:
            yield _trail_fault(
                number, f"The trail of {number} does not say by what it was replaced, or says it of one that was not."
            )
        held = held_again(job, self._people.signers_of(job, turn_of(self._file, RECORD, seq)), self._ours)
        if held.why:
            yield _fault_of(
                number,
                job,
                f"{number} stands there as issued, and the gate cannot have let it pass: {held.why.rstrip('.')}.",
            )
        if held.unproven:
            yield Unproven(job=number, says=held.unproven)

    def _faults_of_line(self, number: str, expected: JobLine) -> Iterator[LogFault]:
        try:
            kept = line_from(self._file.run(f"SELECT {LINE_COLUMNS} FROM job WHERE number = ?", (number,))[0])
        except DamagedError:
            yield LogFault(about=Concern.LINES, says=f"The line of {number} holds what no line holds.", do=REBUILD)
            return
        if wrong := [says for name, says in _FIELDS.items() if getattr(kept, name) != getattr(expected, name)]:
            says = f"The line of {number} does not say what the job does: {', '.join(wrong)}."
            yield LogFault(about=Concern.LINES, says=says, do=REBUILD)

    def _faults_of_duties(self, number: str, job: Job, line: JobLine) -> Iterator[LogFault]:
        if not self._days_are_written:
            return
        ((job_id,),) = self._file.run("SELECT id FROM job WHERE number = ?", (number,))
        kept = SqliteNotes(self._file).about(TOPIC, number)
        expected = job_duties(
            job, kept, is_out=line.state is State.REPLACED or line.laid_aside, put_right=line.put_right
        )
        if duties_held(self._file, job_id) != expected:
            says = f"The days on which something is due for {number} are not those that the job gives."
            yield LogFault(about=Concern.LINES, says=says, do=REBUILD)

    def _is_found_by_its_words(self, number: str, job: Job, line: JobLine) -> bool:
        kept = self._file.first(
            "SELECT client, place, other, facets FROM job_text WHERE id = (SELECT id FROM job WHERE number = ?)",
            (number,),
        )
        return kept == tuple(text_values(job, line).values())


def told(numbers: list[str], most: int = 5) -> str:
    """Some of them by name, and how many more there are."""
    more = f" and {len(numbers) - most} more" if len(numbers) > most else ""
    return f"{', '.join(numbers[:most])}{more}"


def numbers_since(file: LogFile, since: datetime | None) -> list[str]:
    """Numbers of the jobs touched since, or of all."""
    first = microseconds(since) if since else 0
    # When a job was touched last, its trail says; the line only repeats it.
    asked = "SELECT number FROM job WHERE EXISTS (SELECT 1 FROM edit WHERE job_id = job.id AND at >= ?) ORDER BY id"
    return [
        number
        for (number,) in file.run(asked if since else "SELECT number FROM job ORDER BY id", (first,) if since else ())
    ]


def _called(number: str, job: Job) -> str:
    return f"The {'record of' if job.issued else 'draft'} {number}"


def _fault_of(number: str, job: Job, says: str) -> LogFault:
    about = Concern.RECORDS if job.issued else Concern.DRAFTS
    return LogFault(about=about, says=says, do=GO_BACK, jobs=(number,))


def _trail_fault(number: str, says: str) -> LogFault:
    return LogFault(about=Concern.TRAIL, says=says, do=GO_BACK, jobs=(number,))
