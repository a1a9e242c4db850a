"""R2 measured alone, by the long lead: against the length and size of the cpc, and against what Zs leaves for it."""

from collections.abc import Iterator
from decimal import Decimal

from domain.checks.shared.cables import runs_in_earthed_metal
from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.decimal_slip import did_you_mean
from domain.checks.shared.expected import by_the_metre, impedance_before
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.own_earth import is_way_on_tt
from domain.checks.shared.part_by_part import of_each_way
from domain.checks.shared.phrases import phrase
from domain.checks.shared.tolerances import length_margin, loop_margin, near, tolerance
from domain.figures.formulas.conductor import resistance
from domain.figures.formulas.rounding import half_up, measurable
from domain.figures.units import Ohms
from domain.job.finding import Finding, Severity
from domain.job.job import Job

_found = FindingFactory("cpc-alone")
_COPPER_ALONE = {"A", "C", "E", "O", ""}
_PLACES = 2


@of_each_way
def cpc_alone(job: Job, way: Way) -> Iterator[Finding]:
    """Where R2 stands in place of R1+R2, it fits the length and size of the cpc, and is no more than Zs leaves."""
    circuit = way.circuit
    r2 = circuit.r2.figure
    if r2 is None or r2 <= 0 or circuit.is_ring or circuit.r1_r2.figure is not None:
        return
    yield from _against_length(job, way, r2)
    yield from _against_zs(job, way, r2)


def _against_length(job: Job, way: Way, r2: Decimal) -> Iterator[Finding]:
    circuit, conductors = way.circuit, by_the_metre(way.circuit, job.edition)
    length = circuit.length.figure
    if conductors is None or length is None or not measurable(length):
        return
    if circuit.wiring.strip().upper() not in _COPPER_ALONE:
        return
    expected = resistance(conductors[1], length)
    margin = length_margin(Ohms(expected.value), job.edition)
    lowest = expected.value - margin
    if circuit.points.figure != 1:
        share = tolerance("branched run, share of its length that carries to the end", job.edition).value
        lowest = min(lowest, expected.value * share)
    if lowest <= r2 <= expected.value + margin:
        return
    yield _found(
        job,
        way.at("r2"),
        Severity.ASK,
        "off-its-length",
        limit=phrase("give-or-take", figure=half_up(expected.value, _PLACES), margin=f"{margin} Ω"),
        source=tolerance("R1+R2 and the length, apart by", job.edition).source,
        working=expected.sum,
        typed={"cpc_csa": circuit.cpc_csa.typed},
        r2=circuit.r2,
        length=circuit.length,
        cpc=circuit.cpc_csa,
        sum=expected.sum,
        margin=margin,
        next=did_you_mean(circuit.r2, "Ω", near(expected.value, job.edition)) or phrase("length-or-joint"),
    )


def _against_zs(job: Job, way: Way, r2: Decimal) -> Iterator[Finding]:
    """Zs less what lies before it is R1+R2, of which R2 is a part; earthed metal beside the cpc makes it less."""
    zs, (before, name) = way.circuit.zs, impedance_before(job, way.board)
    if zs.figure is None or before.figure is None or is_way_on_tt(job, way) or runs_in_earthed_metal(way.circuit):
        return
    left = zs.figure - before.figure
    if left < 0 or r2 <= left + loop_margin(Ohms(left), job.edition, by_rcd=bool(way.rcds)):
        return
    yield _found(
        job,
        way.at("r2"),
        Severity.ASK,
        "over-what-is-left",
        limit=phrase("up-to", figure=f"{left} Ω"),
        source=tolerance("Zs and its parts, apart by", job.edition).source,
        typed={"before": before.typed},
        r2=way.circuit.r2,
        zs=zs,
        name=name,
        left=left,
    )
