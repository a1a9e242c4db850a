"""When the next inspection is due, as the paper says it."""

import re
from datetime import date

from domain.dates import date_in
from domain.job.box import typed_in
from domain.job.job import Job
from domain.place import Place

NEXT_INSPECTION = "next_inspection"
"""The box that names it, on the page of the day."""
_INTERVAL = re.compile(r"(?:in |every |after )?([0-9]{1,3})\s*-?\s*(year|month|week)s?\b.*", re.IGNORECASE | re.DOTALL)


def done_on(job: Job) -> date | None:
    """The day of the inspection, or of the completion of the work."""
    return date_in(day_typed(job))


def next_due(job: Job) -> date | None:
    """The day named, or the interval counted from the day of the work; None where the paper names neither."""
    return named_day(next_inspection_typed(job), done_on(job))


def day_place(job: Job) -> Place:
    """The box of that day."""
    return Place(section=job.profile.section, box=job.profile.day_box)


def day_typed(job: Job) -> str:
    """The day of the inspection, or of the completion of the work, as typed."""
    return typed_in(getattr(job, job.profile.section), job.profile.day_box)


def next_inspection_typed(job: Job) -> str:
    """The day or the interval of the next inspection, as typed; "" where the paper names neither."""
    return typed_in(getattr(job, job.profile.section), NEXT_INSPECTION)


def named_day(typed: str, day: date | None) -> date | None:
    """The day typed, or the interval typed counted from a day."""
    typed = typed.strip()
    match = _INTERVAL.fullmatch(typed)
    if named := date_in(typed):
        return named
    if day is None or match is None:
        return None
    count, unit = int(match[1]), match[2].casefold()
    try:
        if unit == "week":
            return date.fromordinal(day.toordinal() + 7 * count)
        return _months_on(day, count * 12 if unit == "year" else count)
    except (ValueError, OverflowError):
        return None


def years_on(day: date, years: int) -> date | None:
    """The same day that many years later, 28 February for a 29th; None past the end of the calendar."""
    try:
        return _months_on(day, 12 * years)
    except (ValueError, OverflowError):
        return None


def _months_on(day: date, months: int) -> date:
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    for last in (day.day, 30, 29, 28):
        try:
            return date(year, month + 1, min(day.day, last))
        except ValueError:
            continue
    raise ValueError(f"{months} months after {day} is no day")
