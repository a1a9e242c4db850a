"""Days, months and years counted as laws count them."""

from calendar import monthrange
from datetime import date, timedelta
from typing import Literal

Count = Literal["starting with", "of"]
"""`starting with` makes the day itself the first; `of` counts from the day after it."""


def last_day(start: date, *, days: int = 0, months: int = 0, count: Count = "of") -> date:
    """The last day of a period. A month ends on the day of the same number, or on the month's last day."""
    after = start.year * 12 + start.month - 1 + months
    year, month = divmod(after, 12)
    day = date(year, month + 1, min(start.day, monthrange(year, month + 1)[1]))
    return day + timedelta(days=days - (count == "starting with"))
