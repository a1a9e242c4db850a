"""Civil time in the United Kingdom, which papers, screens and days of signatures go by; what is stored keeps UTC."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

from domain.dates import written

_ZONE = ZoneInfo("Europe/London")


def in_civil_time(at: datetime) -> datetime:
    """A moment as clocks in the United Kingdom show it. One that names no zone is taken to be so already."""
    return at.replace(tzinfo=_ZONE) if at.tzinfo is None else at.astimezone(_ZONE)


def civil_day(at: datetime) -> date:
    """The day a moment belongs to: 00:15 BST on 13 June is of 13 June, though it is 12 June in UTC."""
    return in_civil_time(at).date()


def written_moment(at: datetime) -> str:
    """A moment as sheets print it: 25 November 2026, 14:03 GMT."""
    civil = in_civil_time(at)
    return f"{written(civil.date())}, {civil:%H:%M %Z}"


def short_moment(at: datetime) -> str:
    """A moment as lists show it: 25/11/2026 14:03 GMT."""
    return f"{in_civil_time(at):%d/%m/%Y %H:%M %Z}"
