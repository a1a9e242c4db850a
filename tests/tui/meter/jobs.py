"""The jobs that the meter keys in, and what the log knows before each."""

from typing import NamedTuple

from domain.dates import written
from domain.forms.choice.chosen import ChosenPapers
from domain.job.job import Job
from domain.job.next_due import done_on
from domain.job.start import new_job
from domain.register.entries import Person
from domain.register.learning import learnt_from
from domain.register.signing import SIGNS
from tests.builders import INSPECTOR, ON
from tests.domain.checks.installations import INSPECTED, INSTALLATIONS, job_of
from tests.tui.meter.certificate import POSITION, Certificate
from tests.tui.meter.house import house
from tests.tui.meter.known import NOTHING_KNOWN, Known

_EARLIER = "A-0001"
TESTER = Person(name=INSPECTOR, position=POSITION, signs=tuple(SIGNS.values()))
"""Who signs, as the office has them in its register of people."""


class Keyed(NamedTuple):
    """A job as it is to come out, and what is known before."""

    name: str
    wanted: Job
    before: Job | None = None
    """The paper that was issued before, by the same person."""
    known: Known = NOTHING_KNOWN
    keys: int = 0
    """What it may take at most, from the first question to the issued pack."""
    bytes: int = 0
    """What the program may send meanwhile; held where the whole of it is keyed in (`python -m tests.tui.meter`)."""

    @property
    def hands(self) -> Certificate:
        """Hands that key it in."""
        return Certificate(
            self.wanted, _begun_after(self.before, self.wanted) if self.before else None, known=self.known
        )


def keyed_jobs() -> tuple[Keyed, ...]:
    """Three circuits from an empty log and for a client the firm knows, sixteen, a report, and the visit after it."""
    kitchen = job_of(INSTALLATIONS["kitchen of three circuits"])
    report = job_of(INSPECTED["maisonette reported"]).model_copy(update={"number": _EARLIER})
    known, seen = Known((TESTER, *learnt_from(kitchen))), Known((TESTER, *learnt_from(report)), report)
    return (
        Keyed("certificate of three circuits, empty log", kitchen, keys=508, bytes=48_000),
        Keyed("the same, client and firm known", kitchen, kitchen, known, keys=333, bytes=47_000),
        Keyed("report of six circuits, seven observations", report, keys=741, bytes=103_000),
        Keyed("return visit to it", _visited_again(report), report, seen, keys=499, bytes=97_000),
        Keyed("certificate of sixteen circuits", house(), keys=976, bytes=82_000),
    )


def _begun_after(before: Job, wanted: Job) -> Job:
    """A job as it begins where the person's last one was another: firm, instruments and tester are put forward."""
    begun = new_job(
        ChosenPapers(form_set=wanted.form_set),
        on=ON,
        firm=before.firm,
        instruments=before.instruments,
        tester=before.boards[0].tested_by,
    )
    return begun.model_copy(update={"edition": wanted.edition})


def _visited_again(report: Job) -> Job:
    """The report of five years later: what the log knows of the first stands in it, all else is found as it was."""
    day = done_on(report)
    assert day
    premises = report.premises.model_copy(
        update={
            "records": _EARLIER,
            "records_held_by": report.firm.name,
            "last_report": _EARLIER,
            "last_inspection": written(day),
        }
    )
    return report.model_copy(update={"premises": premises, "number": ""})
