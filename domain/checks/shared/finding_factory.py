"""How a check makes a finding: the sentence is taken from the catalogue, what was read from the place itself."""

import hashlib
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Protocol

from domain.checks.shared.phrases import SENTENCES
from domain.job.box import boxes_of, shown_in, typed_in
from domain.job.catalogue import Sentence
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.place_in_words import owner_at
from domain.job.reading import Reading
from domain.place import Place
from domain.source import Source

_WORDS = {Severity.FAILS: "not right", Severity.ASK: "to look at", Severity.NOTE: "noted"}
_SHORT = 4
"""Bytes enough to tell readings apart."""


class ShownFigure(Protocol):
    """A figure with its unit: a limit of a table, a sum."""

    @property
    def shown(self) -> str:
        """As a sentence has it."""
        ...


class LimitFigure(ShownFigure, Protocol):
    """A limit that brings its source: a figure of a table, what a reading is held against, or a sum."""

    @property
    def source(self) -> Source | None:
        """Where it stands."""
        ...


@dataclass(frozen=True, slots=True)
class FindingFactory:
    """Makes the findings of one check."""

    check: str
    rests_on: Callable[[Job], Source | None] | None = None
    """What its findings have for a source where neither they nor their limit name one."""

    def __call__(
        self,
        job: Job,
        place: Place,
        severity: Severity,
        case: str,
        *,
        limit: LimitFigure | str = "",
        source: Source | None = None,
        working: str = "",
        measured: str | None = None,
        typed: Mapping[str, str] | None = None,
        said: Mapping[str, str] | None = None,
        **values: Reading | ShownFigure | Decimal | str | int,
    ) -> Finding:
        """A finding at a place, said with the row `check.case` of the catalogue.

        `values` and `said` fill its placeholders, and `limit` one of that name. Those that are readings were typed, and so was what
        stands in the box of the place; `typed` names what else was. A person's answer is known again by check, case,
        place and all that was typed (`Explanation.answers`), so the names of those stay. `measured` is what stands in
        the box, with its unit, unless something else was judged. Long because of all that a finding is known by.
        """
        limit_shown, its_source = (limit, None) if isinstance(limit, str) else (limit.shown, limit.source)
        shown = {name: _shown(value) for name, value in values.items()} | dict(said or {}) | {"limit": limit_shown}
        its_typed = {name: value.typed for name, value in values.items() if isinstance(value, Reading)}
        row = SENTENCES[f"{self.check}.{case}"]
        severity = _weighed(severity, row)
        return Finding(
            check=self.check,
            case=case,
            place=place,
            severity=severity,
            values=shown,
            typed=_typed_at(job, place) | its_typed | dict(typed or {}),
            measured=read_at(job, place) if measured is None else measured,
            limit=limit_shown,
            working=working,
            source=source or its_source or (self.rests_on(job) if self.rests_on else None),
            word=row.word or _WORDS[severity],
            says=row.filled(shown, on_report=job.profile.states_a_condition),
        )


def _weighed(severity: Severity, row: Sentence) -> Severity:
    """A question that no reason can lift, as its row says, fails."""
    return Severity.FAILS if severity is Severity.ASK and not row.lifted else severity


def _shown(value: Reading | ShownFigure | Decimal | str | int) -> str:
    return str(value) if isinstance(value, (str, Decimal, int)) else value.shown


def _typed_at(job: Job, place: Place) -> dict[str, str]:
    owner = owner_at(job, place)
    if owner is None or place.box not in boxes_of(type(owner)):
        return {}
    return {place.box: " ".join(typed_in(owner, place.box).split())}


def read_at(job: Job, place: Place) -> str:
    """What stands in a box, with its unit where it is a figure."""
    owner = owner_at(job, place)
    if owner is None or place.box not in boxes_of(type(owner)):
        return ""
    shown, unit = shown_in(owner, place.box).strip(), boxes_of(type(owner))[place.box].unit
    return f"{shown} {unit}" if unit and Reading.of(shown).value is not None else shown


def readings_of(rows: Iterable[tuple[str, Reading]]) -> str:
    """A short mark of what many circuits read, each under its id: another one as soon as one reading is another."""
    return short_mark(f"{name} {reading.typed}" for name, reading in rows)


def short_mark(texts: Iterable[str]) -> str:
    """A short mark of many texts: another one as soon as one text is another."""
    return hashlib.blake2b("\n".join(texts).encode(), digest_size=_SHORT).hexdigest()
