"""Ring final circuits: the three ends against each other and against R1+R2."""

from collections.abc import Iterator
from decimal import Decimal

from domain.checks.shared.circuits_in_use import Way, ways_in_use
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.ring_slip import moved_reading
from domain.edition import Edition
from domain.figures.formulas.ring import expected_r2, fitting_r2, lowest_crossed, margin, quarter
from domain.figures.limits.conductors import ratios_of
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure
from domain.job.box import boxes_of
from domain.job.circuit import Circuit
from domain.job.circuit_details import RADIAL
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning, Reading

_found = FindingFactory("ring")
_ENDS = ("ring_r1", "ring_rn", "ring_r2")
_READ = {Meaning.VALUE, Meaning.OVER, Meaning.UNDER}


def ring(job: Job) -> Iterator[Finding]:
    """r1 close to rn; r2 as the sizes have it; R1+R2 a quarter of r1 + r2; and no ring readings on a radial."""
    for way in ways_in_use(job):
        if way.circuit.is_ring:
            misfits = tuple(_misfits(job, way))
            slip = _slip(job, way) if misfits else None
            yield from (slip,) if slip else misfits
        elif way.circuit.shape.strip().casefold() == RADIAL:
            yield from _ring_readings_on_a_radial(job, way)


def _misfits(job: Job, way: Way) -> Iterator[Finding]:
    yield from _line_and_neutral(job, way)
    yield from _cpc(job, way)
    yield from _crossed(job, way)


def _slip(job: Job, way: Way) -> Finding | None:
    """One question in place of several, where a moved point answers them all."""
    readings: list[Reading] = [getattr(way.circuit, box) for box in (*_ENDS, "r1_r2")]
    if any(reading.figure is None for reading in readings):
        return None
    moved = moved_reading(way.circuit, lambda changed: not any(_misfits(job, way._replace(circuit=changed))))
    if moved is None:
        return None
    box, value = moved
    reading: Reading = getattr(way.circuit, box)
    says = (
        f"{boxes_of(Circuit)[box].label} {reading.shown} Ω does not fit the other readings of the ring. "
        f"Did you mean {value.normalize():f} Ω?"
    )
    source = named_figure("ring", "cross-connected, apart by", job.edition).source
    return _found(job, way.at(box), Severity.ASK, says, limit=f"{value.normalize():f} Ω", source=source)


def _line_and_neutral(job: Job, way: Way) -> Iterator[Finding]:
    r1, rn = way.circuit.ring_r1, way.circuit.ring_rn
    apart = named_figure("ring", "end to end, apart by", job.edition)
    if r1.figure is None or rn.figure is None or abs(r1.figure - rn.figure) <= apart.value:
        return
    says = (
        f"rn {rn.shown} Ω and r1 {r1.shown} Ω are {abs(r1.figure - rn.figure)} Ω apart; on a ring of one cable they agree "
        f"within {apart.shown}. Loose joint, or not a whole ring?"
    )
    limit = f"within {apart.shown} of r1"
    yield _found(job, way.at("ring_rn"), Severity.ASK, says, limit=limit, source=apart.source)


def _cpc(job: Job, way: Way) -> Iterator[Finding]:
    circuit = way.circuit
    r1, r2, ratios = circuit.ring_r1.figure, circuit.ring_r2.figure, _ratios(circuit, job.edition)
    if r1 is None or r2 is None or r1 <= 0 or not ratios:
        return
    flat, share = _tolerance(job.edition)
    lowest, highest = fitting_r2(r1, ratios, flat, share)
    if lowest <= r2 <= highest:
        return
    workings = [expected_r2(r1, ratio) for ratio in ratios]
    give_or_take = margin(max(working.value for working in workings), flat, share)
    sizes = f"{circuit.live_csa.shown}/{circuit.cpc_csa.shown} mm²"
    says = (
        f"r2 {circuit.ring_r2.shown} Ω does not fit r1 {circuit.ring_r1.shown} Ω on {sizes} cable: about "
        f"{workings[0].shown} is expected ({workings[0].sum}), give or take {give_or_take} Ω. Check the sizes and the joints of the cpc"
    )
    limit = f"{workings[0].shown} ± {give_or_take} Ω"
    yield _found(job, way.at("ring_r2"), Severity.ASK, says, limit=limit, source=flat.source)


def _ratios(circuit: Circuit, edition: Edition) -> tuple[Decimal, ...]:
    line, cpc = circuit.live_csa.figure, circuit.cpc_csa.figure
    if line is None or cpc is None or line <= 0 or cpc <= 0:
        return ()
    return ratios_of(line, cpc, edition)


def _crossed(job: Job, way: Way) -> Iterator[Finding]:
    circuit = way.circuit
    r1, r2, read = circuit.ring_r1.figure, circuit.ring_r2.figure, circuit.r1_r2.figure
    if r1 is None or r2 is None or read is None or r1 <= 0 or r2 <= 0:
        return
    highest, lowest = quarter(r1, r2), lowest_crossed(r1, r2)
    flat, share = _tolerance(job.edition)
    give_or_take = margin(highest.value, flat, share)
    if lowest.value - give_or_take <= read <= highest.value + give_or_take:
        return
    why = (
        "A long spur, a loose joint, or the wrong figure?"
        if read > highest.value
        else "Are the ends crossed over, or is there a parallel path?"
    )
    says = f"R1+R2 {circuit.r1_r2.shown} Ω does not fit the ends: {highest.sum} is expected, give or take {give_or_take} Ω. {why}"
    limit = f"{highest.value:f} ± {give_or_take} Ω"
    yield _found(job, way.at("r1_r2"), Severity.ASK, says, limit=limit, source=flat.source)


def _tolerance(edition: Edition) -> tuple[Limit, Limit]:
    """How far apart readings may lie: in ohms, and as a share."""
    name = "cross-connected, apart by"
    return named_figure("ring", name, edition), named_figure("ring", f"{name} share", edition)


def _ring_readings_on_a_radial(job: Job, way: Way) -> Iterator[Finding]:
    typed: list[tuple[str, Reading]] = [(box, getattr(way.circuit, box)) for box in _ENDS]
    for box, reading in typed:
        if reading.meaning in _READ:
            says = f"{reading.shown} Ω stands where a ring's ends go, but the circuit is a radial; which is it?"
            yield _found(job, way.at(box), Severity.ASK, says)
            return
