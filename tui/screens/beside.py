"""What stands in the panel beside a schedule: the figure to expect, and what the circuit still lacks."""

from domain.box import boxes_of
from domain.checks.expected import expected_of
from domain.checks.ways import ways_in_use
from domain.circuit import Circuit
from domain.formulas.working import Working
from domain.gate import Standing
from domain.job import Job
from domain.place import Place
from tui.widgets.box_view import owner_of

_NAMED_MOST = 6
"""Columns named as still missing; more are counted."""


def figures_beside(job: Job, place: Place) -> tuple[str, ...]:
    """What the box should read for this cable and device, with the sum."""
    way = next((each for each in ways_in_use(job) if owner_of(each.at("")) == owner_of(place)), None)
    if way is None or place.box not in _EXPECTED:
        return ()
    expected = expected_of(job, way)
    return tuple(
        f"{words}: {_told(working)}"
        for name, words in _EXPECTED[place.box]
        if (working := getattr(expected, name)) is not None
    )


def missing_beside(stands: Standing, place: Place) -> tuple[str, ...]:
    """What is still to be filled in on the circuit, by the headings of its columns."""
    here = owner_of(place)
    names = list(dict.fromkeys(gap.place.box for gap in stands.gaps if owner_of(gap.place) == here))
    if not names:
        return ()
    boxes = boxes_of(Circuit)
    named = ", ".join(boxes[name].heading if name in boxes else name for name in names[:_NAMED_MOST])
    more = f" and {len(names) - _NAMED_MOST} more" if len(names) > _NAMED_MOST else ""
    return (f"Missing on this circuit: {named}{more}",)


_EXPECTED: dict[str, tuple[tuple[str, str], ...]] = {
    "r1_r2": (("r1_r2", "To be expected by its length"),),
    "zs": (("zs", "To be expected"), ("fault_current", "Earth fault current then")),
    "length": (("r1_r2", "R1+R2 to be expected"), ("volt_drop", "Voltage drop")),
    "live_csa": (("volt_drop", "Voltage drop"),),
    "rating": (("volt_drop", "Voltage drop"), ("zs", "Zs to be expected")),
}
"""The figures of a circuit that say something of a box."""


def _told(working: Working) -> str:
    source = f" [{working.source.cited}]" if working.source else ""
    return f"{working.sum}{source}"
