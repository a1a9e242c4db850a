"""Days, months and years counted as laws count them.

Kept by hand on the standard library's calendar: whether the first day counts is law, which no library of dates knows.
"""

from calendar import monthrange
from datetime import date, timedelta
from typing import Literal

Count = Literal["starting with", "of"]
"""`starting with` makes the day itself the first; `of` counts from the day after it."""


def last_day(start: date, *, days: int = 0, months: int = 0, count: Count = "of") -> date:
    """The last day of a period. A month ends on the day of the same number, or on the month's last day.

    Counted with the first day, it ends a day sooner; where the month has no day of that number, its last day is that.
    """
    year, month = divmod(start.year * 12 + start.month - 1 + months, 12)
    longest = monthrange(year, month + 1)[1]
    day = date(year, month + 1, min(start.day, longest)) + timedelta(days=days)
    return day - timedelta(days=1) if count == "starting with" and start.day <= longest else day
