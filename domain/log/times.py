"""Times as people remember them, "last spring" or "March 2025", as words that the log keeps of the days of a job.

The seasons are those of the calendar months, spring being March to May, as weather services count them.
"""

import re
from collections.abc import Callable, Iterable, Iterator
from datetime import date, timedelta
from typing import NamedTuple

from domain.dates import MONTHS, date_in

_SEASONS = {"spring": (3, 4, 5), "summer": (6, 7, 8), "autumn": (9, 10, 11), "winter": (12, 1, 2)}
_FEASTS = {"christmas": (12,), "easter": (3, 4)}
_YEAR = re.compile(r"(?:19|20)[0-9]{2}")
_DAY = re.compile(r"([0-9]{1,2})(?:st|nd|rd|th)?")
_COUNTS = {
    name: count
    for count, name in enumerate(["a", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"], 1)
}
_LAST = frozenset({"last", "previous", "past"})
_WORD = re.compile(r"(?:y(?P<year>[0-9]{4}))?(?:m(?P<month>[0-9]{2}))?(?:d(?P<day>[0-9]{2}))?")
_SHORT = 3
"""A month may be begun with so many letters."""


class TimeMeant(NamedTuple):
    """A time that was typed: how many of the words it took, and the words of days it stands for, any of them."""

    taken: int
    days: tuple[str, ...]


def words_of_days(days: Iterable[date | None]) -> tuple[str, ...]:
    """What the log keeps of the days of a job: day, month and year, and the month and the day of any year."""
    words = [word for day in days if day for word in (_day(day), _month(day), _year(day), *_of_any_year(day))]
    return tuple(dict.fromkeys(words))


def time_at(words: tuple[str, ...], today: date | None) -> TimeMeant | None:
    """The time that the words begin with, the longest way of reading it; None where they begin with none."""
    found = [meant for read in _WAYS for meant in read(words, today)]
    return max(found, key=lambda each: each.taken, default=None)


def day_of(typed: str) -> TimeMeant | None:
    """The day typed in figures, such as 18/02/2026."""
    day = date_in(typed)
    return TimeMeant(1, (_day(day),)) if day else None


def in_words(word: str) -> str:
    """A word of days as a person writes it: 18 February 2026, February 2026, February, 2026."""
    match = _WORD.fullmatch(word)
    if match is None:
        return word
    year, month, day = match["year"] or "", MONTHS[int(match["month"]) - 1] if match["month"] else "", match["day"]
    return " ".join(filter(None, (str(int(day)) if day else "", month, year)))


def _day(day: date) -> str:
    return f"y{day.year}m{day.month:02d}d{day.day:02d}"


def _month(day: date) -> str:
    return f"y{day.year}m{day.month:02d}"


def _year(day: date) -> str:
    return f"y{day.year}"


def _of_any_year(day: date) -> tuple[str, str]:
    return f"m{day.month:02d}", f"m{day.month:02d}d{day.day:02d}"


def _months_named(word: str) -> tuple[int, ...]:
    if word in _SEASONS:
        return _SEASONS[word]
    if word in _FEASTS:
        return _FEASTS[word]
    if len(word) < _SHORT:
        return ()
    return tuple(at for at, name in enumerate(MONTHS, 1) if name.casefold().startswith(word))


def _named(words: tuple[str, ...], today: date | None) -> Iterator[TimeMeant]:
    """March, spring, last March, this spring, spring 2025, March 2026, 5 March, 5 March 2026."""
    lead = words[0] if words and words[0] in {*_LAST, "this"} else ""
    after = words[1:] if lead else words
    day = _DAY.fullmatch(after[0]) if after and not lead else None
    after = after[1:] if day else after
    months = _months_named(after[0]) if after else ()
    if not months:
        return
    taken = len(words) - len(after) + 1
    if day:
        month, *others = months
        if others:
            return
        suffix = f"m{month:02d}d{int(day[1]):02d}"
        if len(after) > 1 and _YEAR.fullmatch(after[1]):
            yield TimeMeant(taken + 1, (f"y{after[1]}{suffix}",))
        yield TimeMeant(taken, (suffix,))
    elif len(after) > 1 and _YEAR.fullmatch(after[1]):
        yield TimeMeant(taken + 1, _in_year(months, int(after[1])))
    elif lead and today:
        yield TimeMeant(taken, _in_year(months, _year_of(months, today, is_over=lead in _LAST)))
    else:
        yield TimeMeant(taken, tuple(f"m{month:02d}" for month in months))


def _in_year(months: tuple[int, ...], year: int) -> tuple[str, ...]:
    """The months of a year; its winter may be the one that ends in it or the one that begins in it."""
    before = (date(year - 1, months[0], 1),) if months[0] > months[-1] else ()
    return tuple(_month(day) for day in (*before, *(date(year, month, 1) for month in months)))


def _year_of(months: tuple[int, ...], today: date, *, is_over: bool) -> int:
    """The year in which such months last ended before this one began, or last began."""
    turn = months[-1] if is_over else months[-1] if months[0] > months[-1] else months[0]
    return today.year if (turn < today.month if is_over else turn <= today.month) else today.year - 1


def _of_a_year(words: tuple[str, ...], _: date | None) -> Iterator[TimeMeant]:
    if words and _YEAR.fullmatch(words[0]):
        yield TimeMeant(1, (f"y{words[0]}",))


def _from_today(words: tuple[str, ...], today: date | None) -> Iterator[TimeMeant]:
    """Today, yesterday, last week, this month, last year, three weeks ago."""
    if today is None or not words:
        return
    if words[0] in {"today", "yesterday"}:
        yield TimeMeant(1, (_day(today - timedelta(days=words[0] == "yesterday")),))
    if len(words) > 1 and words[0] in {*_LAST, "this"}:
        back = int(words[0] in _LAST)
        yield from (TimeMeant(2, days) for days in _back(words[1], back, today, about=0))
    if len(words) > 2 and words[2] == "ago":
        count = int(words[0]) if words[0].isdecimal() and len(words[0]) < 3 else _COUNTS.get(words[0], 0)
        if count:
            yield from (TimeMeant(3, days) for days in _back(words[1], count, today, about=1))


def _back(unit: str, count: int, today: date, *, about: int) -> Iterator[tuple[str, ...]]:
    match unit.removesuffix("s"):
        case "day":
            yield tuple(_day(today - timedelta(days=count + each)) for each in range(-about, about + 1))
        case "week":
            monday = today - timedelta(days=today.weekday() + 7 * count)
            yield tuple(_day(monday + timedelta(days=each)) for each in range(-3 * about, 7 + 3 * about))
        case "month":
            first = today.year * 12 + today.month - 1 - count
            months = [divmod(first + each, 12) for each in range(-about, about + 1)]
            yield tuple(_month(date(year, month + 1, 1)) for year, month in months)
        case "year":
            yield (f"y{today.year - count}",)
        case _:
            return


_WAYS: tuple[Callable[[tuple[str, ...], date | None], Iterator[TimeMeant]], ...] = (_named, _of_a_year, _from_today)
