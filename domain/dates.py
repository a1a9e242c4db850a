"""Dates as people type them.

Kept by hand: libraries that read dates guess the order of day and month where it is not said; a certificate must not.
"""

import re
from datetime import date

MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
"""The months in English, wherever the program runs."""
_BETWEEN = r"[/.\- ]"
_DAY = r"(\d{1,2})(?:st|nd|rd|th)?"
_DAY_FIRST = re.compile(
    rf"{_DAY}(?:{_BETWEEN}+(\d{{1,2}}){_BETWEEN}+|{_BETWEEN}*([a-z]{{3,9}}){_BETWEEN}*)(\d{{4}}|\d{{2}})"
)
_YEAR_FIRST = re.compile(rf"(\d{{4}}){_BETWEEN}(\d{{1,2}}){_BETWEEN}(\d{{1,2}})")
_NO_YEAR = re.compile(rf"{_DAY}(?:{_BETWEEN}+\d{{1,2}}|{_BETWEEN}*[a-z]{{3,9}}){_BETWEEN}*")
_LAST_CENTURY_FROM = 69
"""A year of two figures from this on is of the last century, as POSIX `strptime` reads `%y`; before it, of this one."""


def date_in(typed: str) -> date | None:
    """The day meant by `25/11/2026`, `25.11.26`, `25 Nov 2026` or `2026-11-25`; None where it names none.

    The day comes before the month unless a year of four figures leads.
    """
    text = typed.strip().casefold()
    if match := _YEAR_FIRST.fullmatch(text):
        year, month, day = match.groups()
    elif match := _DAY_FIRST.fullmatch(text):
        day, month, year = match[1], match[2] or match[3], match[4]
    else:
        return None
    try:
        return date(_year(year), _month(month), int(day))
    except ValueError:
        return None


def date_problem(typed: str) -> str:
    """What is wrong with a text that should be a date, and how to type it; "" where it is one."""
    if date_in(typed):
        return ""
    if _NO_YEAR.fullmatch(typed.strip().casefold()):
        return f"{typed.strip()!r} has no year; type that too, as in 25/11/2026"
    return f"{typed.strip()!r} is no date; type it as 25/11/2026, 25 Nov 2026 or 2026-11-25"


def _year(typed: str) -> int:
    year = int(typed)
    if len(typed) > 2:
        return year
    return year + (1900 if year >= _LAST_CENTURY_FROM else 2000)


def _month(typed: str) -> int:
    """The month by its number, its name, or the beginning of its name; 0 where it is none."""
    if typed.isdecimal():
        return int(typed)
    return next((number for number, name in enumerate(MONTHS, 1) if name.casefold().startswith(typed)), 0)


def as_typed(day: date | None) -> str:
    """A day as a person would type it; empty for none."""
    return f"{day:%d/%m/%Y}" if day else ""


def written(day: date) -> str:
    """A day as sheets print it: 25 November 2026, in English wherever the program runs."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"
