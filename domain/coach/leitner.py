"""When a case is asked again: Leitner's boxes, a schedule known from card files.

A case answered right moves one box up and rests longer; one answered wrong goes back to the first box.
"""

from datetime import date, timedelta

from domain.coach.answered import Answered

RESTS = (0, 1, 3, 7, 21)
"""Days a case rests in each box; in the first it comes again on the same day."""


def box_after(history: tuple[Answered, ...]) -> int:
    """The box a case lies in, counted from 0, after these answers to it."""
    box = 0
    for each in history:
        box = min(box + 1, len(RESTS) - 1) if each.given.right else 0
    return box


def due_on(history: tuple[Answered, ...]) -> date | None:
    """The day a case is asked again; None when it was never asked."""
    if not history:
        return None
    return history[-1].at.date() + timedelta(days=RESTS[box_after(history)])
