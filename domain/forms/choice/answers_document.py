"""Answers about a job from a document, and what keeps one from being used."""

import json
from typing import NamedTuple

from pydantic import ValidationError

from domain.forms.choice.answers import Answers

_SHOWN = 60
"""Letters of an answer that is told again."""


class WrongAnswer(NamedTuple):
    """What is wrong first in a document of answers."""

    kind: str
    """As the library names it."""
    where: tuple[str, ...]
    """The question, and what lies within its answer; empty for the document as a whole."""
    says: str
    given: str
    """What was given there, as JSON, cut off where it is long."""


class AnswersError(Exception):
    """A document holds no answers that can be used."""

    def __init__(self, wrong: WrongAnswer) -> None:
        super().__init__(wrong.says)
        self.wrong = wrong


def answers_from_json(document: bytes) -> Answers:
    """The answers a document holds; AnswersError where it holds none that can be used."""
    try:
        return Answers.model_validate_json(document)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        where = tuple(str(part)[:_SHOWN] for part in first["loc"])
        raise AnswersError(WrongAnswer(first["type"], where, first["msg"], _shown(first["input"]))) from None


def _shown(given: object) -> str:
    try:
        text = json.dumps(given, ensure_ascii=False, default=str)
    except (ValueError, RecursionError):
        return "that"
    return text if len(text) <= _SHOWN else f"{text[:_SHOWN]}…"
