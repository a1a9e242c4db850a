"""The rules that lead from answers to papers, as data."""

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from pydantic import model_validator

from domain.forms.choice.condition import Conditional
from domain.forms.form_set import FormSet
from domain.source import Source
from domain.value import Value


class Contested(Value):
    """Where practice or guidance differs: what each side does, and the cautious way."""

    about: str
    practices: tuple[str, str]
    cautious: str


class ChoiceRule(Conditional):
    """One row of the table: when it holds, which papers, and the reasons for them and against the other form sets."""

    form_set: FormSet | None = None
    """None: no form set of BS 7671 is needed."""
    why: str
    against: Mapping[FormSet, str]
    with_form_set: FormSet | None = None
    """A second form set that the same visit needs beside the first."""
    also: tuple[FormSet, ...] = ()
    """Form sets that are accepted for the job too, where practice differs."""
    beside: tuple[str, ...] = ()
    """Papers of other standards, or of no standard, that the job needs as well or instead."""
    advisable: bool = False
    """Nothing is required, and the first of those also accepted is the cautious choice."""
    stop: bool = False
    """The work must not go ahead as it stands."""
    apart: bool = False
    """Different people sign for different parts."""
    pack: tuple[str, ...] = ()
    """What goes with the papers besides what always does."""
    contested: Contested | None = None
    boundary: str
    """What would have to be different for another form set."""
    cautions: tuple[str, ...] = ()
    source: Source

    @model_validator(mode="after")
    def _is_whole(self) -> "ChoiceRule":
        if set(self.against) != {each for each in FormSet if each.profile.is_advised} - {
            self.form_set,
            self.with_form_set,
        }:
            raise ValueError(f"rule {self.id!r} must say why each of the other form sets is not advised")
        return self


@cache
def rules() -> tuple[ChoiceRule, ...]:
    """Every rule, the first that holds deciding."""
    names = ("rules_maintenance.toml", "rules.toml", "rules_replaced.toml", "rules_other.toml")
    return tuple(
        rule for name in names for rule in rules_in(files("domain.forms.choice").joinpath(name).read_text("utf-8"))
    )


def rules_in(text: str) -> tuple[ChoiceRule, ...]:
    """The rules a TOML text holds."""
    data: dict[str, Any] = tomllib.loads(text)
    return tuple(ChoiceRule.model_validate(row) for row in data["rule"])
