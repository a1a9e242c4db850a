"""Rated currents against what the cables carry: In against Iz, as far as wiring, method and size tell."""

from collections.abc import Iterator
from decimal import Decimal

from domain.checks.shared.cables import capacity, has_three_phases, highest_capacity, method_in
from domain.checks.shared.circuits_in_use import Way, ways_in_use
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.severities import shortfall
from domain.figures.formulas.cable_rating import cable_rating, exact_rating
from domain.figures.limits.device import standard_in
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure, table
from domain.job.finding import Finding, Severity
from domain.job.job import Job

_found = FindingFactory("overload")
_REWIREABLE = "BS 3036"
_MINERAL, _OTHER = "H", "O"


def overload(job: Job) -> Iterator[Finding]:
    """No device is rated above what its cable carries at its best; a ring has rules of its own."""
    for way in ways_in_use(job):
        rating, csa = way.circuit.rating.figure, way.circuit.live_csa.figure
        if rating is None or csa is None or rating <= 0 or csa <= 0:
            continue
        if way.circuit.is_ring:
            yield from _ring(job, way, rating, csa)
        elif way.circuit.wiring.strip().upper() not in {_MINERAL, _OTHER}:
            yield from _radial(job, way, rating, csa)


def _radial(job: Job, way: Way, rating: Decimal, csa: Decimal) -> Iterator[Finding]:
    tabulated = capacity(way, job.edition)
    if tabulated is None:
        yield from _at_its_best(job, way, rating, csa)
        return
    factors = _factors(job, way)
    if rating <= exact_rating(tabulated.value, factors):
        return
    working = cable_rating(tabulated, factors)
    if working is None:
        return
    phases = "three phases" if has_three_phases(way) else "a single phase"
    only_by_factor = bool(factors) and rating <= tabulated.value
    says = (
        f"In {way.circuit.rating.shown} A is over Iz {working.shown} of {way.circuit.live_csa.shown} mm² by method "
        f"{method_in(way.circuit.method).upper()} on {phases}, before any factor for grouping, heat or insulation"
        f"{', ' + working.sum if factors else ''}{tabulated.caution}. Right only where the load cannot overload the cable "
        "or is protected elsewhere"
    )
    severity = shortfall(job) if only_by_factor else Severity.ASK
    yield _found(job, way.at("rating"), severity, says, limit=working)


def _factors(job: Job, way: Way) -> dict[str, Decimal]:
    if standard_in(way.circuit.device_standard) != _REWIREABLE:
        return {}
    found = table("fuse_factors", job.edition).limit("factor", _REWIREABLE)
    return {"Cf": found.value} if found else {}


def _at_its_best(job: Job, way: Way, rating: Decimal, csa: Decimal) -> Iterator[Finding]:
    """Without a table for the wiring and the method, only what no method allows is asked about."""
    best = highest_capacity(csa, job.edition)
    if best is None or rating <= best.value:
        return
    says = (
        f"In {way.circuit.rating.shown} A is over {best.shown}, the most that {way.circuit.live_csa.shown} mm² copper "
        f"carries by any method of the tables{best.caution}. Is the size right?"
    )
    yield _found(job, way.at("rating"), Severity.ASK, says, limit=best)


def _ring(job: Job, way: Way, rating: Decimal, csa: Decimal) -> Iterator[Finding]:
    most, carries = (
        named_figure("circuit_rules", f"ring, {rule}", job.edition)
        for rule in ("device up to", "cable carries at least")
    )
    mineral = ", mineral insulated" if way.circuit.wiring.strip().upper() == _MINERAL else ""
    least = named_figure("circuit_rules", f"ring, line conductor at least{mineral}", job.edition)
    tabulated = capacity(way, job.edition)
    if rating > most.value:
        says = f"A ring final circuit has a device of {most.shown} at most, not {way.circuit.rating.shown} A. Is it a ring?"
        yield _found(job, way.at("rating"), Severity.ASK, says, limit=most)
    if csa < least.value:
        says = f"A ring final circuit is wired in {least.shown} at least, not {way.circuit.live_csa.shown} mm². Is it a ring?"
        yield _found(job, way.at("live_csa"), Severity.ASK, says, limit=least)
    elif tabulated and tabulated.value < carries.value:
        yield _weak_ring(job, way, tabulated, carries)


def _weak_ring(job: Job, way: Way, tabulated: Limit, carries: Limit) -> Finding:
    says = (
        f"The cable of a ring final circuit carries {carries.shown} at least; {way.circuit.live_csa.shown} mm² by method "
        f"{method_in(way.circuit.method).upper()} carries {tabulated.shown}{tabulated.caution}"
    )
    which = f"{way.circuit.live_csa.shown} mm², {way.circuit.method.strip()}"
    return _found(job, way.at("method"), Severity.ASK, says, limit=carries, measured=which)
