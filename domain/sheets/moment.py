"""Moments as sheets print them."""

from datetime import UTC, datetime

from domain.dates import written


def printed(at: datetime) -> str:
    """A moment of the record: 25 November 2026, 14:03 UTC."""
    if at.tzinfo is None:
        return f"{written(at.date())}, {at:%H:%M}"
    universal = at.astimezone(UTC)
    return f"{written(universal.date())}, {universal:%H:%M} UTC"
