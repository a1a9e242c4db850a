"""Readings taken with an instrument whose calibration had run out."""

from collections.abc import Iterator
from datetime import date

from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.phrases import phrase
from domain.dates import date_in, written
from domain.job.box import typed_in
from domain.job.finding import Finding, Severity
from domain.job.instrument import INSTRUMENTS, due_box
from domain.job.job import Job
from domain.job.next_due import done_on
from domain.place import Place
from domain.regulation import regulation
from domain.value import says_nothing

_found = FindingFactory("calibration")


def calibration(job: Job) -> Iterator[Finding]:
    """Asks for a reason where the last day of testing lies after the day an instrument was due."""
    tested = _last_day_of_testing(job)
    if tested is None:
        return
    for box, name in INSTRUMENTS.items():
        serial, typed = typed_in(job.instruments, box), typed_in(job.instruments, due_box(box))
        due = date_in(typed)
        if due is not None and due < tested and not says_nothing(serial):
            yield _found(
                job,
                Place(section="instruments", box=due_box(box)),
                Severity.ASK,
                "run-out",
                limit=phrase("used-on", day=written(tested)),
                source=regulation("test instruments", job.edition),
                measured=phrase("due-on", day=written(due)),
                typed={"serial": serial.strip(), "used": tested.isoformat()},
                instrument=name,
                serial=serial,
                due=written(due),
                used=written(tested),
            )


def _last_day_of_testing(job: Job) -> date | None:
    """That of the boards where each names its day; else the last of theirs and that of the paper."""
    days = [date_in(board.tested_on) for board in job.boards]
    told = [day for day in days if day]
    if told and len(told) == len(days):
        return max(told)
    return max((day for day in (done_on(job), *told) if day), default=None)
