"""The questions about a job, as data: those that decide its papers, and those that tell what else is owed."""

import tomllib
from functools import cache
from importlib.resources import files
from typing import Annotated, Any

from pydantic import Field, model_validator

from domain.forms.choice.answers import Answers
from domain.forms.choice.condition import Given
from domain.value import Value


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
        _must_be_an_answer(self.id)
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

    def words_for(self, answers: Answers) -> str:
        """The words of the answer given; "" when it was not asked."""
        given = getattr(answers, self.id)
        return next((answer.words for answer in self.answers if answer.value == given), "")


class TypedQuestion(Value):
    """A question answered by typing: a date, a number or a name."""

    id: str
    label: str = ""
    """What a day is called beside its box."""
    words: str
    takes: str

    @model_validator(mode="after")
    def _fills_the_answers(self) -> "TypedQuestion":
        _must_be_an_answer(self.id)
        return self


@cache
def questions() -> tuple[Question, ...]:
    """Every question that decides papers, in the order a person is asked."""
    return tuple(Question.model_validate(row) for row in _rows("questions.toml"))


@cache
def further_questions() -> tuple[Question, ...]:
    """Every question that only tells what else is owed, in the order a person is asked."""
    return tuple(Question.model_validate(row) for row in _rows("questions_further.toml"))


@cache
def typed_questions() -> tuple[TypedQuestion, ...]:
    """The dates clocks run from, and the few figures a report may set."""
    return tuple(TypedQuestion.model_validate(row) for row in _rows("questions_typed.toml"))


def in_words(answers: Answers) -> tuple[tuple[str, str], ...]:
    """Every question that was answered by key, with the words of its answer, in the order they are asked."""
    asked = (*questions(), *further_questions())
    return tuple((each.words, words) for each in asked if (words := each.words_for(answers)))


def _rows(name: str) -> list[dict[str, Any]]:
    return tomllib.loads(files("domain.forms.choice").joinpath(name).read_text("utf-8"))["question"]


def _must_be_an_answer(name: str) -> None:
    if name not in Answers.model_fields:
        raise ValueError(f"no answer is called {name!r}")
