"""How a check makes a finding: what was read is taken from the place itself."""

from dataclasses import dataclass
from typing import Protocol

from domain.job.box import boxes_of, shown_in
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.place_in_words import owner_at
from domain.job.reading import Reading
from domain.place import Place
from domain.source import Source


class LimitFigure(Protocol):
    """A limit that brings its source: a figure of a table, what a reading is held against, or a sum."""

    @property
    def shown(self) -> str:
        """The figure with its unit."""
        ...

    @property
    def source(self) -> Source | None:
        """Where it stands."""
        ...


@dataclass(frozen=True, slots=True)
class FindingFactory:
    """Makes the findings of one check."""

    check: str

    def __call__(
        self,
        job: Job,
        place: Place,
        severity: Severity,
        says: str,
        *,
        limit: LimitFigure | str = "",
        source: Source | None = None,
        working: str = "",
        measured: str | None = None,
    ) -> Finding:
        """A finding at a place. `measured` is what stands in the box, with its unit, unless something else was judged.

        A person's reason for a finding is known again by it (`Explanation.answers`), so it must not come to read otherwise.
        """
        shown, its_source = (limit, None) if isinstance(limit, str) else (limit.shown, limit.source)
        return Finding(
            check=self.check,
            place=place,
            severity=severity,
            measured=read_at(job, place) if measured is None else measured,
            limit=shown,
            working=working,
            source=source or its_source,
            says=says,
        )


def read_at(job: Job, place: Place) -> str:
    """What stands in a box, with its unit where it is a figure."""
    owner = owner_at(job, place)
    if owner is None or place.box not in boxes_of(type(owner)):
        return ""
    shown, unit = shown_in(owner, place.box).strip(), boxes_of(type(owner))[place.box].unit
    return f"{shown} {unit}" if unit and Reading.of(shown).value is not None else shown
