"""One reading over all visits, as a small chart in plain text."""

from datetime import date
from decimal import Decimal
from typing import NamedTuple

from domain.dates import written
from domain.job.job import Job
from domain.job.next_due import done_on
from domain.job.reading import Meaning, Reading
from domain.log.last_time.history import History, place_then, reading_at
from domain.place import Place

BAR = "█"
_BEYOND = ">"


class Point(NamedTuple):
    """A reading of one visit."""

    number: str
    on: date | None
    reading: Reading


def trend_of(history: History, now: Job, place: Place) -> tuple[Point, ...]:
    """The reading at a place on every visit that took it, oldest first, the job itself last."""
    points = [
        Point(visit.number, visit.on, reading)
        for visit in reversed(history.visits)
        if (reading := reading_at(visit.job, place_then(now, visit.job, history.matches(now, visit), place)))
    ]
    here = reading_at(now, place)
    return (*points, Point(now.number, done_on(now), here)) if here else tuple(points)


def chart(points: tuple[Point, ...], width: int) -> tuple[str, ...]:
    """A line for each point: day, reading, and a bar from nought; > at its end where the range was passed."""
    figures = [point.reading.value for point in points if point.reading.value is not None]
    highest = max(figures, default=Decimal(0))
    days = [written(point.on) if point.on else point.number for point in points]
    day_width = max((len(day) for day in days), default=0)
    shown_width = max((len(point.reading.shown) for point in points), default=0)
    room = max(width - day_width - shown_width - 4, 1)
    return tuple(
        f"{day:<{day_width}}  {point.reading.shown:>{shown_width}}  {_bar(point.reading, highest, room)}".rstrip()
        for day, point in zip(days, points, strict=True)
    )


def _bar(reading: Reading, highest: Decimal, room: int) -> str:
    if reading.value is None or not highest:
        return ""
    long = max(int(reading.value * room / highest), 1)
    return f"{BAR * (long - 1)}{_BEYOND}" if reading.meaning is Meaning.OVER else BAR * long
