"""What is due over a whole log, soonest first: found by its days, without reading a job."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from domain.dates import MONTHS
from domain.duties.duty import DutyKind
from domain.duties.duty_days import JobDuties, duties_of
from domain.duties.duty_facts import duty_facts
from domain.duties.noted import TOPIC, DutyDone, done_in, noted
from domain.duties.of_job import owing_for
from domain.duties.owing import Owed, Owing
from domain.forms.choice.question import Question, further_questions
from domain.forms.form_set import FormSet
from domain.job.job import Job
from domain.log.due_days import DueAsked
from domain.log.job_log import JobLog
from domain.log_note import LogNote

LATE = "Late"
ALL_DUE = DueAsked()
"""Everything, from the first day on."""


class DueLine(NamedTuple):
    """One thing due for one job. A log has hundreds of thousands."""

    number: str
    form_set: FormSet
    client: str
    premises: str
    contact: str
    owed: Owed
    by: date
    key: str
    """The duty, as the log names it."""
    done: DutyDone | None = None

    @property
    def place(self) -> tuple[date, str, str]:
        """Where the list goes on after it."""
        return self.done.on if self.done else self.by, self.number, self.key

    @property
    def is_kept_until(self) -> bool:
        """Nothing is to be done by the day; a paper is kept until then."""
        return self.owed.duty.kind is DutyKind.KEEP


@dataclass(frozen=True, slots=True)
class Untold:
    """A job whose duties cannot all be told before a question is answered."""

    number: str
    client: str
    premises: str
    contact: str
    ask: Question


def due_in(log: JobLog, asked: DueAsked = ALL_DUE) -> Iterator[DueLine]:
    """What is due for the jobs of a log, or was noted as done; one that was replaced owes nothing any more."""
    for row in log.due(asked):
        number, form_set, client, premises, contact, day = row
        yield DueLine(number, form_set, client, premises, contact, day.owed, day.by, day.duty, day.done)


def owing_in(log: JobLog, job: Job) -> Owing:
    """What is owed for one job, with what was noted of it; it is read from the log each time."""
    line = log.line(job.number)
    notes = noted(note.text for note in log.notes(TOPIC)).get(job.number)
    return owing_for(job, notes, put_right=bool(line and line.put_right))


def untold_in(log: JobLog, after: str = "", limit: int | None = None) -> Iterator[Untold]:
    """The jobs that still need an answer, the oldest first."""
    questions = {question.id: question for question in further_questions()}
    for row in log.unanswered(after, limit):
        if ask := questions.get(row.asks):
            yield Untold(row.number, row.client, row.premises, row.contact, ask)


class DueSection(NamedTuple):
    """Lines of one month, or what is apart from the months."""

    title: str
    lines: tuple[DueLine, ...]


def sections_of(lines: Iterable[DueLine], on: date, counts: Mapping[str, int] | None = None) -> tuple[DueSection, ...]:
    """What is late first, then month by month, and last the papers that are only kept.

    Each says how many it holds, which are more than those listed where `counts` says so.
    """
    found: dict[str, list[DueLine]] = {}
    in_order = sorted(lines, key=lambda line: (line.is_kept_until, line.by))
    for line in in_order:
        found.setdefault(_title(line.by, on, kept=line.is_kept_until), []).append(line)
    held = counts or {title: len(each) for title, each in found.items()}
    return tuple(DueSection(f"{title} ({held.get(title, len(each)):,})", tuple(each)) for title, each in found.items())


def counts_in(log: JobLog, on: date) -> Mapping[str, int]:
    """How much is due under each title, listed or not."""
    found = Counter[str]()
    for by, kept, count in log.due_counted():
        found[_title(by, on, kept=kept)] += count
    return found


def _title(by: date, on: date, *, kept: bool) -> str:
    if kept:
        return "Papers to be kept until"
    return LATE if by < on else f"{MONTHS[by.month - 1]} {by.year}"


def job_duties(job: Job, kept: Sequence[LogNote], *, is_out: bool, put_right: bool) -> JobDuties:
    """What the log keeps of what is due for a job, from the job and the notes on its duties."""
    if is_out:
        return JobDuties()
    if not kept:
        return duties_of(duty_facts(job), put_right=put_right)
    notes, done = noted(note.text for note in kept), done_in(kept)
    return duties_of(duty_facts(job), notes.get(job.number), done.get(job.number), put_right=put_right)
