"""How a check makes a finding: what was read is taken from the place itself."""

from domain.box import boxes_of, shown_in
from domain.finding import Finding, Severity
from domain.job import Job
from domain.limits.limit import Limit
from domain.limits.source import Source
from domain.place import Place
from domain.reading import Reading
from domain.whereabouts import owner_at


def found(
    job: Job,
    check: str,
    place: Place,
    severity: Severity,
    says: str,
    *,
    limit: Limit | str = "",
    source: Source | None = None,
    working: str = "",
    measured: str | None = None,
) -> Finding:
    """A finding at a place. A limit out of a table brings its source; `measured` is what stands in the box, with its unit."""
    is_tabulated = isinstance(limit, Limit)
    return Finding(
        check=check,
        place=place,
        severity=severity,
        measured=read_at(job, place) if measured is None else measured,
        limit=limit.shown if is_tabulated else limit,
        working=working,
        source=source or (limit.source if is_tabulated else None),
        says=says,
    )


def read_at(job: Job, place: Place) -> str:
    """What stands in a box, with its unit where it is a figure."""
    owner = owner_at(job, place)
    if owner is None or place.box not in boxes_of(type(owner)):
        return ""
    shown, unit = shown_in(owner, place.box).strip(), boxes_of(type(owner))[place.box].unit
    return f"{shown} {unit}" if unit and Reading.of(shown).value is not None else shown
