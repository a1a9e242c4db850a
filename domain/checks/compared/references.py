"""What stands beside the readings of a circuit for comparison: what each should be, and what it may be."""

from collections.abc import Mapping
from decimal import Decimal
from typing import NamedTuple

from domain.checks.compared.box_limits import BoxLimit, limit_in
from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.expected import by_the_metre, expected_of
from domain.edition import Edition
from domain.figures.formulas.conductor import resistance
from domain.figures.formulas.ring import expected_r2, quarter
from domain.figures.formulas.rounding import half_up, measurable, written
from domain.figures.formulas.working import Working
from domain.figures.units import Metres, Ohms
from domain.job.circuit import RESULT_BOXES
from domain.job.job import Job

_TO_THE_METRE = 0


class Reference(NamedTuple):
    """Beside one box: the expected value with its sum, where it can be worked out, and the limit."""

    expected: Working | None
    limit: BoxLimit


def references_of(job: Job, way: Way) -> Mapping[str, Reference]:
    """By box name, for every box of results."""
    expected = _expected(job, way)
    return {box: Reference(expected.get(box), limit_in(job, way, box)) for box in RESULT_BOXES}


def implied_length(way: Way, edition: Edition) -> Working | None:
    """The length of run (m) that R1+R2 means for these sizes; of a ring that of the whole ring."""
    read, conductors = way.circuit.r1_r2.figure, by_the_metre(way.circuit, edition)
    if read is None or conductors is None or not measurable(read):
        return None
    each = conductors[0].value + conductors[1].value
    times = 4 if way.circuit.is_ring else 1
    value = half_up(read * times * 1000 / each, _TO_THE_METRE)
    legs = f"{times} × " if way.circuit.is_ring else ""
    total = f"{legs}{written(read)} Ω / {written(each)} mΩ/m = {value} m"
    return Working(value=value, unit="m", sum=total, source=conductors[0].source)


def _expected(job: Job, way: Way) -> Mapping[str, Working | None]:
    found, ends = expected_of(job, way), _ends(way, job.edition)
    crossed = found.r1_r2
    r1, r2 = way.circuit.ring_r1.figure, way.circuit.ring_r2.figure
    if way.circuit.is_ring and r1 is not None and r2 is not None and measurable(r1, r2):
        crossed = quarter(Ohms(r1), Ohms(r2))
    return {**ends, "r1_r2": crossed, "zs": found.zs}


def _ends(way: Way, edition: Edition) -> Mapping[str, Working | None]:
    """The ends of a ring, or R2 of a radial, by the length; without one, r2 by r1 and the sizes."""
    circuit, conductors = way.circuit, by_the_metre(way.circuit, edition)
    if conductors is None:
        return {}
    line, cpc = conductors
    length, r1 = circuit.length.figure, circuit.ring_r1.figure
    by_length: tuple[Working, Working] | None = None
    if length is not None and measurable(length):
        by_length = resistance(line, Metres(length)), resistance(cpc, Metres(length))
    if not circuit.is_ring:
        return {"r2": by_length[1]} if by_length else {}
    by_r1 = expected_r2(Ohms(r1), _ratio(line.value, cpc.value)) if r1 is not None and measurable(r1) else None
    first = by_length[0] if by_length else None
    return {"ring_r1": first, "ring_rn": first, "ring_r2": by_r1 or (by_length[1] if by_length else None)}


def _ratio(line: Decimal, cpc: Decimal) -> Decimal:
    return cpc / line
