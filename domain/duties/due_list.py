"""What is due over a whole log, soonest first."""

from dataclasses import dataclass
from datetime import date

from domain.choice.question import Question
from domain.duties.noted import TOPIC, noted
from domain.duties.of_job import owing_by
from domain.duties.owing import Owed
from domain.form_set import FormSet
from domain.job_log import JobLog


@dataclass(frozen=True, slots=True)
class DueLine:
    """One thing due for one job."""

    number: str
    form_set: FormSet
    client: str
    premises: str
    owed: Owed
    by: date

    def is_late(self, on: date) -> bool:
        """The day has passed."""
        return self.by < on


@dataclass(frozen=True, slots=True)
class Untold:
    """A job whose duties cannot all be told before a question is answered."""

    number: str
    client: str
    premises: str
    ask: Question


@dataclass(frozen=True, slots=True)
class DueList:
    """Everything due, soonest first, and the jobs that still need an answer."""

    lines: tuple[DueLine, ...]
    untold: tuple[Untold, ...]


def due_in(log: JobLog) -> DueList:
    """All that is due for the jobs of a log; one that was replaced owes nothing any more."""
    notes = noted(jotting.text for jotting in log.jottings(TOPIC))
    lines: list[DueLine] = []
    untold: list[Untold] = []
    for line, told in log.dated():
        found = owing_by(told, notes.get(line.number), put_right=line.put_right)
        about = {"number": line.number, "client": line.client, "premises": line.premises}
        lines += (
            DueLine(**about, form_set=line.form_set, owed=owed, by=owed.due.by) for owed in found.clocks if owed.due
        )
        if found.ask_for_days:
            untold.append(Untold(**about, ask=found.ask_for_days))
    lines.sort(key=lambda each: (each.by, each.number, each.owed.duty.id))
    return DueList(lines=tuple(lines), untold=tuple(untold))
