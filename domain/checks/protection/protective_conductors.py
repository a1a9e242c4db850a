"""Sizes of circuit protective conductors: by the table, and where they are smaller, by the adiabatic equation."""

from collections.abc import Iterator
from decimal import Decimal
from typing import NamedTuple

from domain.checks.protection.non_standard_sizes import is_a_size
from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.expected import voltage_to_earth
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.part_by_part import of_each_way
from domain.checks.shared.phrases import phrase
from domain.checks.shared.protective_sizes import by_table
from domain.checks.shared.severities import shortfall
from domain.edition import Edition
from domain.figures.formulas.adiabatic import carries, least_csa
from domain.figures.formulas.rounding import written
from domain.figures.limits.device import breaker_type_in, has_type, standard_in
from domain.figures.limits.disconnection import longest_time
from domain.figures.limits.earth_fault import device_limits
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure, table
from domain.figures.units import AdiabaticFactor, Amperes, Seconds, SquareMillimetres
from domain.job.finding import Finding, Severity
from domain.job.job import Job

_found = FindingFactory("protective-conductors")
_OWN_COPPER = {"A", "B", "C", "D", "E", ""}
"""Wiring whose cpc, where a size is given, is a copper conductor; armour and sheaths go by other tables."""
_SHEATHED = "A"
_INSULATION = "70 °C thermoplastic in cable, up to 300 mm²"


_PATHS = {True: 2, False: 1}
"""The cpc of a ring carries the fault by both its legs."""


class FaultCase(NamedTuple):
    """A current and how long it flows, both as the limits of the device have them."""

    current: Decimal
    time: Decimal
    is_longest: bool
    """The device may take as long as that; otherwise it takes at least as long."""


@of_each_way
def protective_conductors(job: Job, way: Way) -> Iterator[Finding]:
    """A cpc as large as the table asks passes; a smaller one must carry the fault until the device opens."""
    line, cpc = way.circuit.live_csa.figure, way.circuit.cpc_csa.figure
    wiring = way.circuit.wiring.strip().upper()
    if line is None or cpc is None or line <= 0 or cpc <= 0 or wiring not in _OWN_COPPER:
        return
    if not (is_a_size(SquareMillimetres(line), job.edition) and is_a_size(SquareMillimetres(cpc), job.edition)):
        return
    if wiring == _SHEATHED and cpc > line:
        line_size = way.circuit.live_csa
        yield _found(
            job,
            way.at("cpc_csa"),
            Severity.ASK,
            "larger-than-line",
            limit=phrase("up-to", figure=f"{line_size.shown} mm²"),
            cpc=way.circuit.cpc_csa,
            line=line_size,
        )
    elif cpc < by_table(SquareMillimetres(line), job.edition).value:
        yield from _by_the_equation(job, way, cpc)


def _by_the_equation(job: Job, way: Way, cpc: Decimal) -> Iterator[Finding]:
    fault = _fault(job, way)
    k = table("k_values", job.edition).limit("k", "copper", _INSULATION)
    if (
        fault is None
        or k is None
        or carries(
            SquareMillimetres(cpc * _PATHS[way.circuit.is_ring]),
            Amperes(fault.current),
            Seconds(fault.time),
            AdiabaticFactor(k.value),
        )
    ):
        return
    working = least_csa(Amperes(fault.current), Seconds(fault.time), AdiabaticFactor(k.value))
    if working is None:
        return
    yield _found(
        job,
        way.at("cpc_csa"),
        shortfall(job),
        "too-small",
        limit=f"{working.value} mm²",
        source=working.source,
        typed={"zs": way.circuit.zs.typed, "rating": way.circuit.rating.typed},
        cpc=way.circuit.cpc_csa,
        line=way.circuit.live_csa,
        sum=working.sum,
        time=written(fault.time),
        which=phrase("longest-to-open" if fault.is_longest else "least-to-open"),
    )


def _fault(job: Job, way: Way) -> FaultCase | None:
    """What the cpc has to carry; None where the device, or Zs, is not known well enough to say.

    A cpc as large as flat twin and earth has for its line is used with breakers without a further sum, which is
    common practice: a breaker that trips at once lets through less than the equation says for a tenth of a second.
    """
    circuit = way.circuit
    zs, rating, standard = circuit.zs.figure, circuit.rating.figure, standard_in(circuit.device_standard)
    if zs is None or zs <= 0 or rating is None or standard is None:
        return None
    flows = voltage_to_earth(job).value / zs
    if has_type(standard):
        multiple = table("breaker_multiples", job.edition).limit("within_0_4_s", breaker_type_in(circuit.device_type))
        shortest = named_figure("adiabatic_scope", "maker's I²t below", job.edition).value
        if multiple is None or flows < multiple.value * rating:
            return None
        return FaultCase(multiple.value * rating if _is_usual(way, job.edition) else flows, shortest, is_longest=True)
    return _through_a_fuse(job, way, flows)


def _is_usual(way: Way, edition: Edition) -> bool:
    """The cpc is at least the one that flat twin and earth of the same line conductor is made with."""
    line, cpc = way.circuit.live_csa.figure, way.circuit.cpc_csa.figure
    made = (row.figures for row in table("r1_r2", edition).rows if "made_as" in row.texts)
    return any(row["line"].value == line and cpc is not None and row["cpc"].value <= cpc for row in made)


def _through_a_fuse(job: Job, way: Way, flows: Decimal) -> FaultCase | None:
    """A fuse lets through most at the least current that blows it in time; between its two times, only the shorter is sure."""
    circuit = way.circuit
    limits = device_limits(
        circuit.device_standard, circuit.device_type, circuit.rating.figure or Decimal(0), job.edition
    )
    nominal = named_figure("loop", "U0", job.edition).value
    short = longest_time("TN", "final", nominal, job.edition)
    long = longest_time("TN", "distribution", nominal, job.edition)
    if limits and limits.short_time is None and limits.long_time and long:
        return _in_the_long_time(job, flows, limits.long_time, long)
    if limits is None or limits.short_time is None or short is None:
        return None
    driving = nominal * named_figure("loop", "Cmin", job.edition).value
    blowing = driving / limits.short_time.value
    if flows >= blowing:
        return FaultCase(blowing, short.value, is_longest=True)
    return FaultCase(flows, short.value, is_longest=False)


def _in_the_long_time(job: Job, flows: Decimal, limit: Limit, long: Limit) -> FaultCase:
    """A fuse whose table has one column only is judged at the time of that column."""
    nominal = named_figure("loop", "U0", job.edition).value
    blowing = nominal * named_figure("loop", "Cmin", job.edition).value / limit.value
    return FaultCase(min(blowing, flows), long.value, is_longest=flows >= blowing)
