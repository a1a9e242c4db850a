"""The questions that decide which form set a job needs, as data."""

import tomllib
from functools import cache
from importlib.resources import files
from typing import Annotated, Any

from pydantic import Field, StrictBool, StrictInt, StrictStr, model_validator

from domain.choice.answers import Answers
from domain.value import Value

Given = StrictBool | StrictInt | StrictStr
"""One answer, as rules and questions hold it."""


class AllowedAnswer(Value):
    """One answer a question takes: the key that gives it, and what it says."""

    key: Annotated[str, Field(min_length=1, max_length=1)]
    value: Given
    words: str


class Question(Value):
    """One question. Its id names the field of the answers that it fills."""

    id: str
    words: str
    help: str
    answers: Annotated[tuple[AllowedAnswer, ...], Field(alias="answer", min_length=2)]

    @model_validator(mode="after")
    def _fills_the_answers(self) -> "Question":
        if self.id not in Answers.model_fields:
            raise ValueError(f"no answer is called {self.id!r}")
        keys = [answer.key for answer in self.answers]
        if len(set(keys)) != len(keys):
            raise ValueError(f"two answers to {self.id!r} share a key")
        for answer in self.answers:
            Answers.model_validate({self.id: answer.value})
        return self

    def answered(self, key: str, answers: Answers) -> Answers | None:
        """The answers with the one this key gives; None for a key that gives none."""
        taken = next((each for each in self.answers if each.key == key), None)
        return Answers.model_validate(dict(answers) | {self.id: taken.value}) if taken else None


@cache
def questions() -> tuple[Question, ...]:
    """Every question, in the order a person is asked."""
    data: dict[str, Any] = tomllib.loads(files("domain.choice").joinpath("questions.toml").read_text(encoding="utf-8"))
    return tuple(Question.model_validate(row) for row in data["question"])
