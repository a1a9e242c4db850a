"""Ring final circuits: the three ends against each other and against R1+R2."""

from collections.abc import Iterator
from decimal import Decimal

from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.decimal_slip import did_you_mean_figure
from domain.checks.shared.expected import by_the_metre
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.part_by_part import of_each_way
from domain.checks.shared.phrases import phrase
from domain.checks.shared.ring_slip import moved_reading
from domain.edition import Edition
from domain.figures.formulas.ring import expected_r2, fitting_r2, lowest_crossed, margin, quarter
from domain.figures.limits.conductors import ratios_of
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure
from domain.figures.units import Ohms, SquareMillimetres
from domain.job.box import boxes_of
from domain.job.circuit import Circuit
from domain.job.circuit_details import RADIAL
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning, Reading

_found = FindingFactory("ring")
_ENDS = ("ring_r1", "ring_rn", "ring_r2")
_READ = {Meaning.VALUE, Meaning.OVER, Meaning.UNDER}


@of_each_way
def ring(job: Job, way: Way) -> Iterator[Finding]:
    """r1 close to rn; r2 as the sizes have it; R1+R2 a quarter of r1 + r2; and no ring readings on a radial."""
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
    source = named_figure("ring", "cross-connected, apart by", job.edition).source
    return _found(
        job,
        way.at(box),
        Severity.ASK,
        "point-slipped",
        limit=f"{value.normalize():f} Ω",
        source=source,
        label=boxes_of(Circuit)[box].label,
        reading=reading,
        next=did_you_mean_figure(value, "Ω"),
        typed=_ends_typed(way.circuit),
    )


def _ends_typed(circuit: Circuit) -> dict[str, str]:
    """All four readings, which are judged together."""
    readings: list[tuple[str, Reading]] = [(box, getattr(circuit, box)) for box in (*_ENDS, "r1_r2")]
    return {box: reading.typed for box, reading in readings}


def _line_and_neutral(job: Job, way: Way) -> Iterator[Finding]:
    r1, rn = way.circuit.ring_r1, way.circuit.ring_rn
    if r1.figure is None or rn.figure is None:
        return
    apart, share = (named_figure("ring", f"end to end, apart by{part}", job.edition) for part in ("", " share"))
    most = margin(r1.figure, apart, share)
    if abs(r1.figure - rn.figure) <= most:
        return
    yield _found(
        job,
        way.at("ring_rn"),
        Severity.ASK,
        "line-and-neutral-apart",
        limit=phrase("within-of", figure=f"{most} Ω", name="r1"),
        source=apart.source,
        rn=rn,
        r1=r1,
        apart=abs(r1.figure - rn.figure),
        most=f"{most} Ω",
    )


def _cpc(job: Job, way: Way) -> Iterator[Finding]:
    circuit = way.circuit
    r1, r2, ratios = circuit.ring_r1.figure, circuit.ring_r2.figure, _ratios(circuit, job.edition)
    if r1 is None or r2 is None or r1 <= 0 or not ratios:
        return
    flat, _ = _tolerance(job.edition)
    share = named_figure("ring", "cpc by its size, apart by share", job.edition)
    lowest, highest = fitting_r2(Ohms(r1), ratios, flat, share)
    if lowest <= r2 <= highest:
        return
    workings = [expected_r2(Ohms(r1), ratio) for ratio in ratios]
    give_or_take = margin(Ohms(max(working.value for working in workings)), flat, share)
    yield _found(
        job,
        way.at("ring_r2"),
        Severity.ASK,
        "cpc-off-its-size",
        limit=phrase("give-or-take", figure=workings[0].shown, margin=f"{give_or_take} Ω"),
        source=flat.source,
        typed={"live_csa": circuit.live_csa.typed, "cpc_csa": circuit.cpc_csa.typed},
        r2=circuit.ring_r2,
        r1=circuit.ring_r1,
        sizes=f"{circuit.live_csa.shown}/{circuit.cpc_csa.shown} mm²",
        expected=workings[0],
        sum=workings[0].sum,
        margin=give_or_take,
    )


def _ratios(circuit: Circuit, edition: Edition) -> tuple[Decimal, ...]:
    line, cpc = circuit.live_csa.figure, circuit.cpc_csa.figure
    if line is None or cpc is None or line <= 0 or cpc <= 0:
        return ()
    return ratios_of(SquareMillimetres(line), SquareMillimetres(cpc), edition)


def _crossed(job: Job, way: Way) -> Iterator[Finding]:
    circuit = way.circuit
    r1, r2, read = circuit.ring_r1.figure, circuit.ring_r2.figure, circuit.r1_r2.figure
    if r1 is None or r2 is None or read is None or r1 <= 0 or r2 <= 0:
        return
    highest, lowest = quarter(Ohms(r1), Ohms(r2)), lowest_crossed(Ohms(r1), Ohms(r2))
    flat, share = _tolerance(job.edition)
    give_or_take = margin(Ohms(highest.value), flat, share)
    if lowest.value - give_or_take <= read <= highest.value + give_or_take + _spur(circuit, job.edition):
        return
    yield _found(
        job,
        way.at("r1_r2"),
        Severity.ASK,
        "crossed-too-high" if read > highest.value else "crossed-too-low",
        limit=phrase("give-or-take", figure=f"{highest.value:f}", margin=f"{give_or_take} Ω"),
        source=flat.source,
        typed={"ring_r1": circuit.ring_r1.typed, "ring_r2": circuit.ring_r2.typed},
        r1_r2=circuit.r1_r2,
        sum=highest.sum,
        margin=give_or_take,
    )


def _spur(circuit: Circuit, edition: Edition) -> Decimal:
    """What a spur of ordinary length adds to the highest reading, in ohms."""
    conductors = by_the_metre(circuit, edition)
    length = named_figure("ring", "spur of ordinary length", edition).value
    return sum((each.value for each in conductors), Decimal(0)) * length / 1000 if conductors else Decimal(0)


def _tolerance(edition: Edition) -> tuple[Limit, Limit]:
    """How far apart readings may lie: in ohms, and as a share."""
    name = "cross-connected, apart by"
    return named_figure("ring", name, edition), named_figure("ring", f"{name} share", edition)


def _ring_readings_on_a_radial(job: Job, way: Way) -> Iterator[Finding]:
    typed: list[tuple[str, Reading]] = [(box, getattr(way.circuit, box)) for box in _ENDS]
    for box, reading in typed:
        if reading.meaning in _READ:
            shape = {"shape": way.circuit.shape.strip()}
            yield _found(job, way.at(box), Severity.ASK, "ends-of-a-radial", typed=shape, reading=reading)
            return
