"""What the codes of a report make of its outcome, by edition, as data with both readings where one is contested."""

import tomllib
from collections.abc import Collection, Mapping
from enum import StrEnum
from functools import cache
from importlib.resources import files
from typing import Any, Literal

from pydantic import Field, model_validator

from domain.edition import Edition
from domain.inspection.observation import Code
from domain.source import Source
from domain.value import Value

ReportOutcome = Literal["satisfactory", "unsatisfactory"]


class FiAlone(StrEnum):
    """What FI without a C1 or C2 makes of a report."""

    UNSATISFACTORY = "unsatisfactory"
    SATISFACTORY = "satisfactory"
    INSPECTOR = "the inspector decides"


class OutcomeReading(Source):
    """One way to read a contested rule, with who reads it so."""

    outcome: ReportOutcome
    says: str

    @property
    def told(self) -> str:
        """The reading with its source, as a screen or a sheet gives it."""
        return f"{self.outcome}: {self.says} ({self.cited}; read in: {self.seen_in})"


class OutcomeRule(Value):
    """The rule of one edition."""

    edition: Edition
    fi_alone: FiAlone
    source: Source
    readings: tuple[OutcomeReading, ...] = Field(default=(), alias="reading")

    @model_validator(mode="after")
    def _contested_rules_give_both_readings(self) -> "OutcomeRule":
        if self.is_contested and {each.outcome for each in self.readings} != {"satisfactory", "unsatisfactory"}:
            raise ValueError(f"the contested rule of {self.edition} must give both readings")
        return self

    @property
    def is_contested(self) -> bool:
        """The inspector decides where FI stands alone."""
        return self.fi_alone is FiAlone.INSPECTOR

    def outcome(self, codes: Collection[Code], decided: str) -> ReportOutcome | None:
        """How a report with these codes comes out; `decided` is the inspector's word. None while that is awaited."""
        if not codes or {*codes} <= {Code.C3}:
            return "satisfactory"
        if not is_fi_alone(codes):
            return "unsatisfactory"
        word = decided if self.is_contested else self.fi_alone.value
        return "satisfactory" if word == "satisfactory" else "unsatisfactory" if word == "unsatisfactory" else None


def is_fi_alone(codes: Collection[Code]) -> bool:
    """There is an FI and neither a C1 nor a C2."""
    return Code.FI in codes and not {Code.C1, Code.C2} & {*codes}


def outcome_rule(edition: Edition) -> OutcomeRule:
    """The rule of an edition, its own or that of the edition it takes its tables over from."""
    rules = _rules()
    return next(rules[each] for each in edition.lineage if each in rules)


def rules_in(text: str) -> Mapping[Edition, OutcomeRule]:
    """The rules a TOML text holds."""
    data: dict[str, Any] = tomllib.loads(text)
    rules = [OutcomeRule.model_validate(row | {"edition": Edition[row["edition"]]}) for row in data["rule"]]
    return {rule.edition: rule for rule in rules}


@cache
def _rules() -> Mapping[Edition, OutcomeRule]:
    return rules_in(files("domain.inspection").joinpath("outcome_rules.toml").read_text(encoding="utf-8"))
