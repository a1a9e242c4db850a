"""Practice cases: a story in plain English, a question, and the answer with its reason, as data.

A visit is one story with several questions, each a case of its own kind that follows the one before.
"""

import tomllib
from collections.abc import Iterator, Mapping
from enum import StrEnum
from functools import cache
from importlib.resources import files
from typing import Annotated, Any

from pydantic import Field, model_validator

from domain.coach.cautions import cautions
from domain.source import Source
from domain.value import Value


class CaseKind(StrEnum):
    """What a case practises."""

    FORM = "which papers"
    TELL = "what goes with it, whom to tell"
    CODE = "codes"
    OUTCOME = "outcome"
    MISSING = "what is missing"
    READING = "readings against limits"
    PACK = "what is in the pack"
    ORDER = "order of tests"
    ISOLATION = "safe isolation"
    FAULTS = "faults on a finished paper"


class Case(Value):
    """One case. The keys of `answers` say what each answer means to the rules, its values what a person reads."""

    id: str
    kind: CaseKind
    told: str
    ask: str
    answers: Annotated[Mapping[str, str], Field(min_length=2, max_length=5)]
    right: str
    also: tuple[str, ...] = ()
    """Answers that are accepted too, where practice differs."""
    why: str
    source: Source
    caution: str = ""
    after: str = ""
    """The case before it in the same visit, which is asked first; empty for a case that stands alone or begins."""
    proof: Mapping[str, Any]
    """What the rules are asked, so that case and rules agree."""

    @model_validator(mode="after")
    def _has_its_answer(self) -> "Case":
        if missing := {self.right, *self.also} - self.answers.keys():
            raise ValueError(f"case {self.id!r} does not offer {min(missing)!r}")
        return self

    def is_right(self, meaning: str) -> bool:
        """The answer is right, or accepted too."""
        return meaning == self.right or meaning in self.also

    @property
    def right_words(self) -> str:
        """The right answer as a person reads it."""
        return self.answers[self.right]


@cache
def cases() -> tuple[Case, ...]:
    """Every case: visits first, then kind by kind."""
    folder = files("domain.coach").joinpath("cases")
    texts = [folder.joinpath(f"{kind.name.casefold()}.toml").read_text(encoding="utf-8") for kind in CaseKind]
    visits = visits_in(folder.joinpath("visits.toml").read_text(encoding="utf-8"))
    every = (*visits, *(case for text in texts for case in cases_in(text)))
    ids = [case.id for case in every]
    if twice := {each for each in ids if ids.count(each) > 1}:
        raise ValueError(f"two cases are called {min(twice)!r}")
    return every


def cases_in(text: str) -> tuple[Case, ...]:
    """The cases a TOML text holds; what they share of kind, source and caution is said once."""
    data: dict[str, Any] = tomllib.loads(text)
    shared: dict[str, Any] = data["source"]
    caution = cautions()[data["caution"]] if "caution" in data else ""
    return tuple(_case(row, data["kind"], shared, caution) for row in data["case"])


def visits_in(text: str) -> tuple[Case, ...]:
    """The cases of visits; what a visit was told and what its rules are asked is said once."""
    data: dict[str, Any] = tomllib.loads(text)
    return tuple(case for visit in data["visit"] for case in _visit(visit, data["source"]))


def _visit(visit: dict[str, Any], shared: dict[str, Any]) -> Iterator[Case]:
    before = ""
    for row in visit["question"]:
        kind, name = row.pop("kind"), f"{visit['id']}/{row.pop('id')}"
        about = {"id": name, "told": visit["told"], "after": before}
        proof = {"proof": {"answers": visit["answers"]} | row.pop("proof", {})}
        yield _case(row | about | proof, kind, shared, "")
        before = name


def _case(row: dict[str, Any], kind: str, shared: dict[str, Any], caution: str) -> Case:
    own: dict[str, Any] = {
        name: row.pop(name) for name in ("standard", "table", "seen_in", "trust", "note") if name in row
    }
    return Case(kind=CaseKind[kind], source=Source.model_validate(shared | own), caution=caution, **row)
