"""Published guidance on classification, found by the words of an observation or by its inspection item."""

import tomllib
from collections.abc import Iterable, Mapping
from functools import cache
from importlib.resources import files
from typing import Annotated, Any

from pydantic import Field, model_validator

from domain.inspection.observation import Code
from domain.source import Source
from domain.value import Line, Value
from domain.words import words_of

MOST = 4
"""More than a few are no help beside a form."""
_MEANT = 2
_SHORTEST_BEGINNING = 3
"""Letters; shorter words are taken whole, so that `no` is not found in `notice`."""


class Guidance(Value):
    """What guidance says of one kind of observation. It is shown, never applied."""

    about: Line
    commonly: tuple[Code, ...] = ()
    """The codes the guidance names; none where it says that no code is given."""
    says: str
    """What the code hangs on."""
    words: Annotated[tuple[tuple[str, ...], ...], Field(min_length=1)]
    """Sets of words; an observation is of this kind when it holds every word of one set, each by its beginning."""
    items: tuple[str, ...] = ()
    """The inspection items it belongs to."""
    findings: tuple[str, ...] = ()
    """The failures of checks (`check.case`) that are of this kind."""
    found_on: str = ""
    """The section of a job they stand in, where that decides."""
    contested: bool = False
    source: Source

    @model_validator(mode="before")
    @classmethod
    def _sets_are_split(cls, given: Any) -> Any:
        return given | {"words": tuple(words_of(each) for each in given["words"])}

    def is_on(self, finding: str, section: str) -> bool:
        """It speaks of a failure, known by the row of its check, in a section of a job."""
        return finding in self.findings and self.found_on in {"", section}

    @property
    def told(self) -> str:
        """One entry in a few words, with its source: never which code this observation gets."""
        codes = " or ".join(self.commonly) or "no code by itself"
        doubt = " Contested." if self.contested else ""
        return f"{self.about}: guidance names {codes}.{doubt} {self.says} ({self.source.standard}, {self.source.trust})"

    def fit(self, typed: frozenset[str], also: frozenset[str], items: frozenset[str]) -> int:
        """How well an observation fits: the letters of its best set that it holds all words of, and its items.

        A word that what was typed only means, without saying it, counts as a short one.
        """
        whole = (each for each in self.words if all(_holds(typed | also, word) for word in each))
        weights = (sum(len(word) if _holds(typed, word) else _MEANT for word in each) for each in whole)
        best = max(weights, default=0)
        return 2 * best + bool(best and items & set(self.items))


def guidance_for(text: str, items: Iterable[str] = ()) -> tuple[Guidance, ...]:
    """The guidance most like an observation, the best fit first; by item alone where its words find nothing."""
    typed, numbers = words_of(text), frozenset(items)
    also = frozenset(other for word in typed for other in _also().get(word, ()))
    fits = [(each.fit(frozenset(typed), also, numbers), each) for each in guidance()]
    chosen = sorted((pair for pair in fits if pair[0]), key=lambda pair: -pair[0])
    if not chosen:
        return tuple(each for each in guidance() if numbers & set(each.items))[:MOST]
    return tuple(each for _, each in chosen[:MOST])


@cache
def guidance() -> tuple[Guidance, ...]:
    """Every entry, in the order of its file."""
    data = _file()
    sources = {name: Source.model_validate(source) for name, source in data["source"].items()}
    return tuple(Guidance.model_validate(row | {"source": sources[row["source"]]}) for row in data["guidance"])


@cache
def _also() -> Mapping[str, tuple[str, ...]]:
    return {word: tuple(others) for word, others in _file()["also"].items()}


@cache
def _file() -> dict[str, Any]:
    return tomllib.loads(files("domain.inspection.codes").joinpath("guidance.toml").read_text("utf-8"))


def _holds(found: frozenset[str], word: str) -> bool:
    if len(word) < _SHORTEST_BEGINNING:
        return word in found
    return any(each.startswith(word) for each in found)
