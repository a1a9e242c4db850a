"""Readings that say less than a figure: nothing at all, or a bound so high that it tells nothing."""

from collections.abc import Iterator
from decimal import Decimal

from domain.checks.shared.circuits_in_use import Way, board_place
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.part_by_part import of_each_way
from domain.checks.shared.tolerances import tolerance
from domain.forms.box_group import BoxGroup
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning, Reading
from domain.place import Place

_found = FindingFactory("less-than-a-figure")
_RESISTANCES = ("ring_r1", "ring_rn", "ring_r2", "r1_r2", "r2")
_ENDS = ("ring_r1", "ring_rn", "ring_r2")


def less_than_a_figure(job: Job) -> Iterator[Finding]:
    """A loop or a fault current is never nothing; under the range of an instrument is some hundredths of an ohm."""
    if job.profile.takes(BoxGroup.ORIGIN):
        yield from _loop(job, Place(section="supply", box="ze"), job.supply.ze)
        yield from _current(job, Place(section="supply", box="ipf"), job.supply.ipf)
        if job.supply.ipf.meaning is Meaning.OVER:
            place = Place(section="supply", box="ipf")
            yield _found(job, place, Severity.ASK, "current-over-range", reading=job.supply.ipf)
        yield from _loop(job, Place(section="earthing", box="electrode_resistance"), job.earthing.electrode_resistance)
    for board in job.boards:
        yield from _loop(job, board_place(board, "zs"), board.zs)
        yield from _current(job, board_place(board, "ipf"), board.ipf)
    yield from _of_ways(job)


@of_each_way
def _of_ways(job: Job, way: Way) -> Iterator[Finding]:
    circuit = way.circuit
    if circuit.zs.meaning is Meaning.UNDER and _is_nothing(circuit.zs):
        yield _found(job, way.at("zs"), Severity.ASK, "loop-of-nothing", reading=circuit.zs)
    for box in _RESISTANCES:
        reading: Reading = getattr(circuit, box)
        if reading.meaning is Meaning.UNDER:
            yield from _bound(job, way.at(box), reading, nothing=box in _ENDS)


def _is_nothing(reading: Reading) -> bool:
    return reading.typed[:1] not in {"<", "≤"}


def _loop(job: Job, place: Place, reading: Reading) -> Iterator[Finding]:
    if reading.meaning is Meaning.UNDER and _is_nothing(reading):
        yield _found(job, place, Severity.ASK, "loop-of-nothing", reading=reading)
    elif reading.meaning is Meaning.UNDER:
        yield from _bound(job, place, reading, nothing=False)
    elif reading.meaning is Meaning.OVER:
        yield _found(job, place, Severity.ASK, "loop-over-range", reading=reading)


def _bound(job: Job, place: Place, reading: Reading, *, nothing: bool) -> Iterator[Finding]:
    finest = tolerance("a resistance under the range of an instrument", job.edition)
    if nothing and _is_nothing(reading):
        yield _found(job, place, Severity.ASK, "end-of-nothing", reading=reading)
    elif not _is_nothing(reading) and (reading.value or Decimal(0)) > finest.value:
        yield _found(job, place, Severity.ASK, "bound-too-high", limit=finest, reading=reading)


def _current(job: Job, place: Place, reading: Reading) -> Iterator[Finding]:
    if reading.meaning is Meaning.UNDER:
        yield _found(job, place, Severity.ASK, "no-current", reading=reading)
