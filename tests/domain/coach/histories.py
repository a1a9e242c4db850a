"""Answers to practice cases, for tests: one letter of a text an answer, r right and w wrong."""

from datetime import UTC, datetime, timedelta

from domain.coach.answered import Answered, given_to
from domain.coach.case import Case

BEGUN = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


def answer(case: Case, letter: str, day: int = 0, minute: int = 0) -> Answered:
    """An answer given so many days after the first of them."""
    wrong = next(meaning for meaning in case.answers if not case.is_right(meaning))
    return Answered(
        given=given_to(case, case.right if letter == "r" else wrong), at=BEGUN + timedelta(days=day, minutes=minute)
    )


def answers(case: Case, letters: str) -> tuple[Answered, ...]:
    """Answers to one case, all on the first day."""
    return tuple(answer(case, letter, minute=at) for at, letter in enumerate(letters))
