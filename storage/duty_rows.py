"""The seam where rows become days that duties are due, and such days become rows; the same at every keeper."""

from datetime import date
from typing import Any

from domain.duties.duty_days import DutyDay
from domain.duties.noted import DutyDone
from domain.forms.form_set import FormSet
from domain.log.due_days import DueAsked, DueRow

DAY_COLUMNS = "duty, by, counted, other, kept, done_on, done_who, done_word"
LAST = 1 << 62
"""After every day and job."""


def day_values(day: DutyDay) -> tuple[Any, ...]:
    """The columns of a day."""
    done = (day.done.on.toordinal(), day.done.who, day.done.word) if day.done else (None, None, None)
    other = day.other_reading.toordinal() if day.other_reading else None
    return (day.duty, day.by.toordinal(), day.counted, other, int(day.kept), *done)


def day_from(row: tuple[Any, ...]) -> DutyDay:
    """A day, from its columns."""
    duty, by, counted, other, kept, done_on, who, word = row
    done = DutyDone(who=who, on=date.fromordinal(done_on), word=word) if done_on is not None else None
    return DutyDay(duty, date.fromordinal(by), counted, date.fromordinal(other) if other else None, bool(kept), done)


def due_row_from(row: tuple[Any, ...]) -> DueRow:
    """A day with what the list says of its job."""
    number, form_set, client, premises, contact, *day = row
    return DueRow(number, FormSet(form_set), client, premises, contact, day_from(tuple(day)))


def bounds_of(asked: DueAsked) -> dict[str, int]:
    """Between which days, and of which kinds."""
    return {
        "since": asked.first.toordinal() if asked.first else 0,
        "until": asked.until.toordinal() if asked.until else LAST,
        "kept": int(asked.kept or False),
        "other": int(asked.kept is not False),
    }


def beginning_of(asked: DueAsked) -> dict[str, int | str]:
    """What the first page goes on after."""
    # Of two bounds on one column an index takes the looser, so the first day is where the first page begins.
    first = bounds_of(asked)["since"]
    return {"day": LAST, "job": LAST, "duty": ""} if asked.done else {"day": first, "job": 0, "duty": ""}


def place_of(row: DueRow) -> tuple[date, str, str]:
    """Where the list goes on after a row, as `DueAsked.after` names it."""
    return row.day.done.on if row.day.done else row.day.by, row.number, row.day.duty
