"""The seam where rows become days that duties are due, and such days become rows; the same at every keeper."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date
from typing import Any

from domain.duties.duty_days import DutyDay
from domain.duties.noted import DutyDone
from domain.forms.form_set import FormSet
from domain.log.due_days import DueAsked, DueRow, UnansweredRow
from storage.line_rows import as_written

DAY_COLUMNS = "duty, by, counted, other, kept, done_on, done_who, done_word"
_KEPT = {0: False, 1: True}
_FORM_SETS = {each.value: each for each in FormSet}
_PAGE = 1_000
_LAST = 1 << 62
"""After every day and job."""


def day_values(day: DutyDay) -> tuple[Any, ...]:
    """The columns of a day."""
    done = (day.done.on.toordinal(), day.done.who, day.done.word) if day.done else (None, None, None)
    other = day.other_reading.toordinal() if day.other_reading else None
    return (day.duty, day.by.toordinal(), day.counted, other, int(day.kept), *done)


def day_from(row: tuple[Any, ...]) -> DutyDay:
    """A day, from its columns; DamagedError where they hold none."""
    with as_written("A day on which something is due"):
        return _day(row)


def _day(row: tuple[Any, ...]) -> DutyDay:
    duty, by, counted, other, kept, done_on, who, word = row
    if len({value is None for value in (done_on, who, word)}) > 1:
        raise ValueError("what was done has a day, who did it, and a word, or none of them")
    done = DutyDone(who=who, on=date.fromordinal(done_on), word=word) if done_on is not None else None
    return DutyDay(duty, date.fromordinal(by), counted, date.fromordinal(other) if other else None, _KEPT[kept], done)


def due_row_from(row: tuple[Any, ...]) -> DueRow:
    """A day with what the list says of its job."""
    number, form_set, client, premises, contact = row[:5]
    return DueRow(number, _FORM_SETS[form_set], client, premises, contact, _day(row[5:]))


def due_rows(
    asked: DueAsked,
    ask: Callable[[dict[str, Any]], Iterable[tuple[Any, ...]]],
    place: Callable[[tuple[date, str, str]], Mapping[str, Any]],
) -> Iterator[DueRow]:
    """What is asked for, a page at a time: `ask` runs the statement, `place` tells what a page goes on after."""
    left, at = asked.limit, place(asked.after) if asked.after else _beginning(asked)
    while left is None or left > 0:
        limit = _PAGE if left is None else min(_PAGE, left)
        rows = ask({**at, **_bounds(asked), "limit": limit})
        # Once for a page: of a hundred thousand jobs each row would feel it.
        with as_written("A day on which something is due"):
            found = [due_row_from(row) for row in rows]
        yield from found
        if len(found) < limit:
            return
        last = found[-1].day
        at = place((last.done.on if last.done else last.by, found[-1].number, last.duty))
        left = None if left is None else left - limit


def unanswered_rows(
    after: str, limit: int | None, ask: Callable[[str, int], Iterable[tuple[Any, ...]]]
) -> Iterator[UnansweredRow]:
    """The jobs that ask for an answer, a page at a time: `ask` runs the statement, after a number and so many."""
    left = limit
    while left is None or left > 0:
        size = _PAGE if left is None else min(_PAGE, left)
        found = [UnansweredRow(*row) for row in ask(after, size)]
        yield from found
        if len(found) < size:
            return
        after = found[-1].number
        left = None if left is None else left - size


def _bounds(asked: DueAsked) -> dict[str, int]:
    return {
        "since": asked.first.toordinal() if asked.first else 0,
        "until": asked.until.toordinal() if asked.until else _LAST,
        "kept": int(asked.kept or False),
        "other": int(asked.kept is not False),
    }


def _beginning(asked: DueAsked) -> dict[str, int | str]:
    # Of two bounds on one column an index takes the looser, so the first day is where the first page begins.
    first = asked.first.toordinal() if asked.first else 0
    return {"day": _LAST, "job": _LAST, "duty": ""} if asked.done else {"day": first, "job": 0, "duty": ""}
