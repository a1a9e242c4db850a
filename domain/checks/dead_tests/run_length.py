"""R1+R2 against the length of the run, and the length it implies where none is known."""

from collections.abc import Iterator
from decimal import Decimal

from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.decimal_slip import did_you_mean
from domain.checks.shared.expected import by_the_metre, expected_r1_r2, impedance_before
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.part_by_part import of_each_way
from domain.checks.shared.phrases import phrase
from domain.checks.shared.tolerances import length_margin, loop_margin, near, tolerance
from domain.edition import Edition
from domain.figures.formulas.rounding import half_up, measurable
from domain.figures.units import Ohms
from domain.job.finding import Finding, Severity
from domain.job.job import Job

_found = FindingFactory("run-length")
_COPPER_ALONE = {"A", "C", "E", "O", ""}
"""Wiring whose cpc is its own copper conductor; elsewhere armour, sheath or steel carries with it."""
_SHARED = {"B", "D"}
_TWICE = 2
_PLACES = 2


@of_each_way
def run_length(job: Job, way: Way) -> Iterator[Finding]:
    """R1+R2 fits the sizes and the length within a band; without a length, the one implied is remarked on if it is long."""
    circuit = way.circuit
    wiring = circuit.wiring.strip().upper()
    if circuit.r1_r2.figure is None or circuit.r1_r2.figure <= 0 or wiring not in _COPPER_ALONE | _SHARED:
        return
    if circuit.length.figure is not None:
        yield from _against_length(job, way, is_shared=wiring in _SHARED)
    elif not circuit.is_ring:
        yield from _implied(job, way)


def _against_length(job: Job, way: Way, *, is_shared: bool) -> Iterator[Finding]:
    conductors, length, read = by_the_metre(way.circuit, job.edition), way.circuit.length.figure, way.circuit.r1_r2
    if conductors is None or length is None or read.figure is None or not measurable(length):
        return
    exact = (conductors[0].value + conductors[1].value) * length / 1000 / (4 if way.circuit.is_ring else 1)
    margin = length_margin(Ohms(exact), job.edition)
    highest, lowest = _span(way, exact, margin, job.edition)
    if way.circuit.points.figure != 1 and not way.circuit.is_ring:
        lowest = min(
            lowest, exact * tolerance("branched run, share of its length that carries to the end", job.edition).value
        )
    values = (read.figure, *_by_its_ends(way))
    expected = (
        None
        if any(value <= highest and (is_shared or value >= lowest) for value in values)
        else expected_r1_r2(way.circuit, job.edition)
    )
    if expected is None:
        return
    shown = half_up(expected.value, _PLACES)
    yield _found(
        job,
        way.at("r1_r2"),
        Severity.ASK,
        "off-its-length",
        limit=phrase("give-or-take", figure=shown, margin=f"{margin} Ω"),
        source=tolerance("R1+R2 and the length, apart by", job.edition).source,
        typed=_sizes_typed(way),
        r1_r2=read,
        length=way.circuit.length,
        sizes=_sizes(way),
        expected=shown,
        sum=expected.sum,
        margin=margin,
        next=_slip(job, way, expected.value) or phrase("length-or-joint"),
    )


def _by_its_ends(way: Way) -> tuple[Decimal, ...]:
    """What the ends of a ring make of R1+R2: where they fit the length, it is R1+R2 that does not fit them, which the ring asks."""
    r1, r2 = way.circuit.ring_r1.figure, way.circuit.ring_r2.figure
    return ((r1 + r2) / 4,) if way.circuit.is_ring and r1 is not None and r2 is not None else ()


def _slip(job: Job, way: Way, expected: Decimal) -> str:
    """Where Zs bears R1+R2 out, it is the length that may have slipped."""
    read, length, before = way.circuit.r1_r2, way.circuit.length, impedance_before(job, way.board)[0].figure
    whole, metres = way.circuit.zs.figure, length.figure
    assert read.figure is not None
    if before is not None and whole is not None and metres is not None:
        is_borne_out = abs(whole - before - read.figure) <= loop_margin(Ohms(whole), job.edition, by_rcd=bool(way.rcds))
        implied = metres * read.figure / expected if expected > 0 else metres
        if is_borne_out and (slip := did_you_mean(length, "m", near(implied, job.edition), of="the length")):
            return slip
    return did_you_mean(read, "Ω", near(expected, job.edition))


def _span(way: Way, expected: Decimal, margin: Decimal, edition: Edition) -> tuple[Decimal, Decimal]:
    """A ring's length may have been typed as that of the way out only; its ends then read twice as much."""
    if not way.circuit.is_ring:
        return expected + margin, expected - margin
    return _TWICE * expected + length_margin(Ohms(_TWICE * expected), edition), expected - margin


def _implied(job: Job, way: Way) -> Iterator[Finding]:
    conductors, read = by_the_metre(way.circuit, job.edition), way.circuit.r1_r2
    if conductors is None or read.figure is None or way.feeds_a_board:
        return
    by_metre = conductors[0].value + conductors[1].value
    length = half_up(read.figure * 1000 / by_metre, 0)
    remarked, asked = (
        tolerance(f"length implied, {word} above", job.edition) for word in ("remarked on", "asked about")
    )
    if length <= remarked.value:
        return
    yield _found(
        job,
        way.at("r1_r2"),
        Severity.ASK if length > asked.value else Severity.NOTE,
        "long-run",
        limit=asked if length > asked.value else remarked,
        typed=_sizes_typed(way),
        r1_r2=read,
        length=length,
        sizes=_sizes(way),
        by_metre=by_metre,
    )


def _sizes(way: Way) -> str:
    return f"{way.circuit.live_csa.shown}/{way.circuit.cpc_csa.shown} mm²"


def _sizes_typed(way: Way) -> dict[str, str]:
    return {"live_csa": way.circuit.live_csa.typed, "cpc_csa": way.circuit.cpc_csa.typed}
