"""An answer somebody gave to a practice case."""

from datetime import datetime

from pydantic import ValidationError

from domain.coach.case import Case
from domain.value import Line, Value

TOPIC = "practice"
"""Under which the log keeps answers."""


class GivenAnswer(Value):
    """What was answered, as the log keeps it."""

    case: Line
    answer: Line
    right: bool


class Answered(Value):
    """What was answered, and when."""

    given: GivenAnswer
    at: datetime


def given_to(case: Case, meaning: str) -> GivenAnswer:
    """The answer with this meaning, judged."""
    return GivenAnswer(case=case.id, answer=meaning, right=case.is_right(meaning))


def answered_in(text: str, at: datetime) -> Answered | None:
    """An answer as the log kept it; None for what cannot be read."""
    try:
        return Answered(given=GivenAnswer.model_validate_json(text), at=at)
    except ValidationError:
        return None
