"""Dates as people type them."""

import re
from datetime import date

_DAY_FIRST = re.compile(r"(\d{1,2})[/.\- ](\d{1,2})[/.\- ](\d{4})")
_YEAR_FIRST = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")


def date_in(typed: str) -> date | None:
    """The day meant by `25/11/2026`, `25.11.2026` or `2026-11-25`; None where it names none."""
    text = typed.strip()
    if match := _DAY_FIRST.fullmatch(text):
        day, month, year = (int(part) for part in match.groups())
    elif match := _YEAR_FIRST.fullmatch(text):
        year, month, day = (int(part) for part in match.groups())
    else:
        return None
    try:
        return date(year, month, day)
    except ValueError:
        return None


def written(day: date) -> str:
    """A day as sheets print it: 25 November 2026, in English wherever the program runs."""
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


_MONTHS = (
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
