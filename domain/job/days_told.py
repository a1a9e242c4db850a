"""The days a job tells: each with its name, its box and the board it belongs to. Only boxes that its papers ask for count."""

from collections.abc import Iterator
from datetime import date
from enum import StrEnum

from pydantic import BaseModel

from domain.dates import date_in
from domain.job.board import Board
from domain.job.box import boxes_of, typed_in
from domain.job.job import SECTIONS, Job
from domain.job.next_due import NEXT_INSPECTION, next_due
from domain.place import Place
from domain.value import Value


class DayName(StrEnum):
    """What happened, or is to happen, on a day."""

    DESIGN = "design"
    START = "start"
    TEST = "test"
    FIRST_DAY = "first day of inspection"
    LAST_DAY = "last day of inspection"
    COMPLETION = "completion"
    NEXT = "next inspection"
    EARLIER = "earlier report"


class DayTold(Value):
    """A day that a job tells, and where."""

    name: DayName
    place: Place
    day: date
    board: str = ""
    """Whose tests they are, by the name of the board."""


_BOXES = (
    (DayName.EARLIER, "premises", "last_inspection"),
    (DayName.DESIGN, "work", "designed_on"),
    (DayName.START, "work", "started_on"),
    (DayName.FIRST_DAY, "report", "inspected_from"),
    (DayName.LAST_DAY, "report", "inspected_on"),
    (DayName.COMPLETION, "work", "completed_on"),
)


def days_told(job: Job) -> tuple[DayTold, ...]:
    """Every day that can be read in a box of these papers; an interval to the next inspection counts from the day of the work."""
    return tuple(_told(job))


def _told(job: Job) -> Iterator[DayTold]:
    for name, section, box in _BOXES:
        day = date_in(typed_in(getattr(job, section), box))
        if day and _is_asked(job, SECTIONS[section], box):
            yield DayTold(name=name, place=Place(section=section, box=box), day=day)
    for board in job.boards:
        day = date_in(board.tested_on)
        if day and _is_asked(job, Board, "tested_on"):
            place = Place(section="boards", board=board.id, box="tested_on")
            yield DayTold(name=DayName.TEST, place=place, day=day, board=board.name)
    due, section = next_due(job), job.profile.section
    if due and job.profile.names_next_inspection:
        yield DayTold(name=DayName.NEXT, place=Place(section=section, box=NEXT_INSPECTION), day=due)


def _is_asked(job: Job, owner: type[BaseModel], box: str) -> bool:
    return boxes_of(owner)[box].is_asked(job.form_set)
