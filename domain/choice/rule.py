"""The rules that lead from answers to a form set, as data."""

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from pydantic import model_validator

from domain.choice.answers import Answers
from domain.choice.question import Given
from domain.form_set import FormSet
from domain.limits.source import Source
from domain.value import Value


class Wanted(Value):
    """What a rule wants of one answer."""

    one_of: tuple[Given, ...] = ()
    at_least: int | None = None

    def allows(self, given: Given) -> bool:
        """The answer is one the rule wants."""
        if self.at_least is not None:
            return isinstance(given, int) and given >= self.at_least
        return given in self.one_of


class Rule(Value):
    """One row of the table: when it holds, which form set, and the reasons for it and against the other two."""

    id: str
    when: Mapping[str, Wanted]
    form_set: FormSet
    why: str
    against: Mapping[FormSet, str]
    also: tuple[FormSet, ...] = ()
    """Form sets that are accepted for the job too, where practice differs."""
    boundary: str
    """What would have to be different for another form set."""
    cautions: tuple[str, ...] = ()
    source: Source

    @model_validator(mode="after")
    def _is_whole(self) -> "Rule":
        if unknown := self.when.keys() - Answers.model_fields.keys():
            raise ValueError(f"rule {self.id!r} asks for {min(unknown)!r}, which no question answers")
        if set(self.against) != set(FormSet) - {self.form_set}:
            raise ValueError(f"rule {self.id!r} must say why each of the other form sets is not advised")
        return self

    def left_open(self, answers: Answers) -> frozenset[str] | None:
        """The answers still needed to tell whether the rule holds: none left when it does, None when it cannot."""
        missing: set[str] = set()
        for name, wanted in self.when.items():
            given = getattr(answers, name)
            if given is None:
                missing.add(name)
            elif not wanted.allows(given):
                return None
        return frozenset(missing)


@cache
def rules() -> tuple[Rule, ...]:
    """Every rule, the first that holds deciding."""
    return rules_in(files("domain.choice").joinpath("rules.toml").read_text(encoding="utf-8"))


def rules_in(text: str) -> tuple[Rule, ...]:
    """The rules a TOML text holds."""
    data: dict[str, Any] = tomllib.loads(text)
    return tuple(Rule.model_validate(row) for row in data["rule"])
