"""Moments as sheets print them, in the civil time of the United Kingdom."""

from datetime import UTC, date, datetime, timedelta

from domain.dates import written

_CHANGES_AT = 1
"""Hour of Greenwich at which summer time begins and ends: Summer Time Order 2002, from memory."""


def printed(at: datetime) -> str:
    """A moment of the record: 25 November 2026, 14:03 GMT; without its zone it is printed as it stands."""
    if at.tzinfo is None:
        return f"{written(at.date())}, {at:%H:%M}"
    universal = at.astimezone(UTC)
    summer = _is_summer(universal)
    civil = universal + timedelta(hours=summer)
    return f"{written(civil.date())}, {civil:%H:%M} {'BST' if summer else 'GMT'}"


def _is_summer(universal: datetime) -> bool:
    """From the last Sunday of March to the last of October."""
    begins, ends = (
        datetime(universal.year, month, _last_sunday(universal.year, month), _CHANGES_AT, tzinfo=UTC)
        for month in (3, 10)
    )
    return begins <= universal < ends


def _last_sunday(year: int, month: int) -> int:
    last = date(year, month, 31)
    return last.day - last.isoweekday() % 7
