"""What stands in the panel beside a schedule: the limit, the figure to expect, and what the circuit still lacks."""

from collections.abc import Iterator

from domain.checks.compared.box_limits import BoxLimit
from domain.checks.compared.references import implied_length, references_of
from domain.checks.shared.circuits_in_use import Way, ways_in_use
from domain.checks.shared.expected import expected_of
from domain.figures.formulas.working import Working
from domain.gate.assessment import JobAssessment
from domain.job.box import boxes_of, typed_in
from domain.job.circuit import Circuit
from domain.job.job import Job
from domain.job.place_in_words import owner_at
from domain.place import Place
from domain.source import Source
from domain.words import capitalised
from tui.widgets.box_view import owner_of

_NAMED_MOST = 6
"""Columns named as still missing; more are counted."""
_LIMITED = frozenset({"zs", "ir_live", "ir_earth", "rcd_time", "disconnection_time"})
"""Boxes that rules set a limit for; only there is it worth saying that none is known."""


def figures_beside(job: Job, place: Place) -> tuple[str, ...]:
    """The limit of a box and what it should read, each with its sum and source."""
    way = next((each for each in ways_in_use(job) if owner_of(each.at("")) == owner_of(place)), None)
    return tuple(_figures(job, way, place.box)) if way else ()


def missing_beside(job: Job, assessment: JobAssessment, place: Place) -> tuple[str, ...]:
    """What is still to be filled in on the circuit, by the headings of its columns."""
    here, circuit = owner_of(place), owner_at(job, place)
    boxes = boxes_of(Circuit)
    gaps = dict.fromkeys(gap.place.box for gap in assessment.gaps if owner_of(gap.place) == here)
    names = [name for name in gaps if circuit and not (name in boxes and typed_in(circuit, name).strip())]
    if not names:
        return ()
    named = ", ".join(boxes[name].heading if name in boxes else name for name in names[:_NAMED_MOST])
    more = f" and {len(names) - _NAMED_MOST} more" if len(names) > _NAMED_MOST else ""
    return (f"Missing on this circuit: {named}{more}",)


def _figures(job: Job, way: Way, box: str) -> Iterator[str]:
    reference = references_of(job, way).get(box)
    if reference:
        if box in _LIMITED:
            yield _limit(reference.limit)
        if reference.expected:
            yield f"To be expected: {_sum(reference.expected)}"
        if box == "r1_r2" and not reference.expected and (length := implied_length(way, job.edition)):
            yield f"The length this reading means: {_sum(length)}"
        return
    expected = expected_of(job, way)
    for name, words in _OF_DETAILS.get(box, ()):
        if working := getattr(expected, name):
            yield f"{words}: {_sum(working)}"


_OF_DETAILS: dict[str, tuple[tuple[str, str], ...]] = {
    "length": (("r1_r2", "R1+R2 to be expected"), ("volt_drop", "Voltage drop")),
    "live_csa": (("volt_drop", "Voltage drop"),),
    "rating": (("volt_drop", "Voltage drop"), ("fault_current", "Earth fault current")),
}
"""The figures of a circuit that say something of a box of its details."""


def _limit(limit: BoxLimit) -> str:
    if not limit.shown:
        return capitalised(limit.why)
    return f"Limit: {'; '.join(filter(None, (limit.shown, limit.working, limit.why)))}{_cited(limit.source)}"


def _sum(working: Working) -> str:
    return f"{working.sum}{_cited(working.source)}"


def _cited(source: Source | None) -> str:
    return f" [{source.cited}]" if source else ""
