"""What is due over a whole log, soonest first."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple, TypedDict

from domain.dates import MONTHS
from domain.duties.duty import DutyKind
from domain.duties.noted import TOPIC, DutyDone, DutyNotes, done_in, noted
from domain.duties.of_job import owing_by
from domain.duties.owing import Owed
from domain.forms.choice.question import Question
from domain.forms.form_set import FormSet
from domain.log.job_log import JobLog


@dataclass(frozen=True, slots=True)
class DueLine:
    """One thing due for one job."""

    number: str
    form_set: FormSet
    client: str
    premises: str
    contact: str
    owed: Owed
    by: date
    done: DutyDone | None = None

    def is_late(self, on: date) -> bool:
        """The day has passed."""
        return self.by < on

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


@dataclass(frozen=True, slots=True)
class DueList:
    """Everything due, soonest first, the jobs that still need an answer, and what was noted as done, the newest first."""

    lines: tuple[DueLine, ...]
    untold: tuple[Untold, ...]
    done: tuple[DueLine, ...] = ()


class DueSection(NamedTuple):
    """Lines of one month, or what is apart from the months."""

    title: str
    lines: tuple[DueLine, ...]


def sections_of(lines: Iterable[DueLine], on: date) -> tuple[DueSection, ...]:
    """What is late first, then month by month, and last the papers that are only kept; each says how many it holds."""
    found: dict[str, list[DueLine]] = {}
    in_order = sorted(lines, key=lambda line: (line.is_kept_until, line.by))
    for line in in_order:
        month = f"{MONTHS[line.by.month - 1]} {line.by.year}"
        title = "Papers to be kept until" if line.is_kept_until else "Late" if line.is_late(on) else month
        found.setdefault(title, []).append(line)
    return tuple(DueSection(f"{title} ({len(each)})", tuple(each)) for title, each in found.items())


class _About(TypedDict):
    """Whose it is."""

    number: str
    client: str
    premises: str
    contact: str


def due_in(log: JobLog) -> DueList:
    """All that is due for the jobs of a log; one that was replaced owes nothing any more."""
    kept = log.notes(TOPIC)
    notes, done_of = noted(note.text for note in kept), done_in(kept)
    done: list[tuple[date, DueLine]] = []
    lines: list[DueLine] = []
    untold: list[Untold] = []
    for line, told in log.dated():
        found = owing_by(told, notes.get(line.number), put_right=line.put_right)
        about = _About(number=line.number, client=line.client, premises=line.premises, contact=told.contact)
        lines += (
            DueLine(**about, form_set=line.form_set, owed=owed, by=owed.due.by) for owed in found.clocks if owed.due
        )
        marks = done_of.get(line.number, {})
        all_told = owing_by(told, DutyNotes(answers=notes[line.number].answers)) if marks else None
        for owed in all_told.clocks if all_told else ():
            if owed.due and (mark := marks.get((owed.duty.id, owed.due.by))):
                whole = DueLine(**about, form_set=line.form_set, owed=owed, by=owed.due.by, done=mark)
                done.append((mark.on, whole))
        if found.ask_for_days:
            untold.append(Untold(**about, ask=found.ask_for_days))
    lines.sort(key=lambda each: (each.by, each.number, each.owed.duty.id))
    done.sort(key=lambda each: each[0], reverse=True)
    return DueList(lines=tuple(lines), untold=tuple(untold), done=tuple(line for _, line in done))
