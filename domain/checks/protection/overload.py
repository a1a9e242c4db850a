"""Rated currents against what the cables carry: In against Iz, as far as wiring, method and size tell."""

import re
from collections.abc import Iterator
from decimal import Decimal

from domain.checks.shared.cables import (
    HOT_TERMINALS,
    capacity,
    has_three_phases,
    highest_capacity,
    method_in,
    over_the_ambient_table,
    rating_factors,
)
from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.part_by_part import of_each_way
from domain.checks.shared.phrases import phrase
from domain.checks.shared.severities import shortfall
from domain.checks.shared.uses import use_of
from domain.edition import Edition
from domain.figures.formulas.cable_rating import cable_rating, exact_rating
from domain.figures.limits.device import standard_in
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure, table
from domain.figures.units import SquareMillimetres
from domain.job.box import answers_in
from domain.job.circuit import Circuit
from domain.job.circuit_use import SUB_BOARD
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.regulation import regulation

_found = FindingFactory("overload")
_REWIREABLE = "BS 3036"
_COOKER = re.compile(r"\b(?:cooker|oven|hob)\b", re.IGNORECASE)
_MINERAL, _OTHER = "H", "O"


@of_each_way
def overload(job: Job, way: Way) -> Iterator[Finding]:
    """No device is rated above what its cable carries at its best; a ring has rules of its own."""
    rating, csa = way.circuit.rating.figure, way.circuit.live_csa.figure
    if rating is None or csa is None or rating <= 0 or csa <= 0:
        return
    yield from _load(job, way, rating)
    if way.circuit.is_ring:
        yield from _ring(job, way, rating, csa)
    elif way.circuit.wiring.strip().upper() != _OTHER:
        yield from _radial(job, way, rating, SquareMillimetres(csa))


def _load(job: Job, way: Way, rating: Decimal) -> Iterator[Finding]:
    """Ib is no more than In."""
    load = way.circuit.design_current
    if load.figure is not None and load.figure > rating:
        source = regulation("load against device", job.edition)
        yield _found(
            job, way.at("design_current"), shortfall(job), "load-over-device", limit=f"{way.circuit.rating.shown} A",
            source=source, load=load, rating=way.circuit.rating,
        )  # fmt: skip


def _radial(job: Job, way: Way, rating: Decimal, csa: SquareMillimetres) -> Iterator[Finding]:
    tabulated = capacity(way, job.edition)
    if tabulated is None:
        yield from _at_its_best(job, way, rating, csa)
        return
    if (hottest := over_the_ambient_table(way, job.edition)) is not None:
        yield _found(job, way.at("ambient"), shortfall(job), "too-hot", limit=hottest, ambient=way.circuit.ambient)
    factors = _factors(job, way)
    if rating <= exact_rating(tabulated.value, factors):
        return
    working = cable_rating(tabulated, factors)
    if working is None:
        return
    only_by_factor = bool(factors) and rating <= tabulated.value
    burden = _what_overloads(way) if rating > _by_its_own_table(way, job.edition, tabulated) else ""
    yield _found(
        job,
        way.at("rating"),
        shortfall(job) if only_by_factor else Severity.ASK,
        burden or _case(factors),
        limit=tabulated if burden else working,
        typed=_laid_typed(way),
        rating=way.circuit.rating,
        csa=way.circuit.live_csa,
        method=method_in(way.circuit.method).upper(),
        phases=phrase("three-phases" if has_three_phases(way) else "single-phase"),
        sum=working.sum,
        caution=tabulated.caution,
    )


def _by_its_own_table(way: Way, edition: Edition, tabulated: Limit) -> Decimal:
    """What the cable carries where its terminals stand whatever it does, in amperes."""
    hot = way.circuit.model_copy(update={"terminals": HOT_TERMINALS})
    found = capacity(way._replace(circuit=hot), edition)
    return max(found.value, tabulated.value) if found else tabulated.value


def _what_overloads(way: Way) -> str:
    """The case of a load that nothing holds to what the cable carries; "" where one may be such that it overloads nothing."""
    if way.feeds_a_board or SUB_BOARD in answers_in(way.circuit.feeds):
        return "over-cable-of-a-board"
    return "over-cable-of-sockets" if _is_plugged_into(way.circuit) else ""


def _case(factors: dict[str, Decimal]) -> str:
    if set(factors) - {"Cf"}:
        return "over-cable-as-laid"
    return "over-cable-with-this-fuse" if factors else "over-cable"


def _is_plugged_into(circuit: Circuit) -> bool:
    """It feeds socket-outlets; the one in the control unit of a cooker makes its circuit none."""
    use = use_of(circuit)
    return use.sockets and not (use.is_guess and _COOKER.search(circuit.description))


def _laid_typed(way: Way) -> dict[str, str]:
    circuit = way.circuit
    typed = {"method": circuit.method, "wiring": circuit.wiring, "terminals": circuit.terminals, "runs": circuit.runs}
    readings = {"grouped": circuit.grouped, "ambient": circuit.ambient, "in_insulation": circuit.in_insulation}
    said = {name: text.strip() for name, text in typed.items()} | {name: each.typed for name, each in readings.items()}
    return {name: text for name, text in said.items() if text or name in {"method", "wiring"}}


def _factors(job: Job, way: Way) -> dict[str, Decimal]:
    laid = {name: limit.value for name, limit in rating_factors(way, job.edition).items()}
    if standard_in(way.circuit.device_standard) != _REWIREABLE:
        return laid
    found = table("fuse_factors", job.edition).limit("factor", _REWIREABLE)
    return laid | ({"Cf": found.value} if found else {})


def _at_its_best(job: Job, way: Way, rating: Decimal, csa: SquareMillimetres) -> Iterator[Finding]:
    """Without a table for the wiring and the method, only what no method allows is asked about."""
    best = highest_capacity(csa, job.edition)
    if best is None or rating <= best.value:
        return
    rating_typed, size = way.circuit.rating, way.circuit.live_csa
    place, said = way.at("rating"), {"caution": best.caution}
    yield _found(job, place, Severity.ASK, "over-any-cable", limit=best, rating=rating_typed, csa=size, said=said)


def _ring(job: Job, way: Way, rating: Decimal, csa: Decimal) -> Iterator[Finding]:
    most, carries = (
        named_figure("circuit_rules", f"ring, {rule}", job.edition)
        for rule in ("device up to", "cable carries at least")
    )
    mineral = ", mineral insulated" if way.circuit.wiring.strip().upper() == _MINERAL else ""
    least = named_figure("circuit_rules", f"ring, line conductor at least{mineral}", job.edition)
    tabulated = capacity(way, job.edition)
    if rating > most.value:
        yield _found(job, way.at("rating"), Severity.ASK, "ring-device", limit=most, rating=way.circuit.rating)
    if csa < least.value:
        yield _found(job, way.at("live_csa"), Severity.ASK, "ring-conductor", limit=least, csa=way.circuit.live_csa)
    elif tabulated and tabulated.value < carries.value:
        yield _weak_ring(job, way, tabulated, carries)


def _weak_ring(job: Job, way: Way, tabulated: Limit, carries: Limit) -> Finding:
    return _found(
        job,
        way.at("method"),
        Severity.ASK,
        "ring-cable",
        limit=carries,
        measured=f"{way.circuit.live_csa.shown} mm², {way.circuit.method.strip()}",
        csa=way.circuit.live_csa,
        method=method_in(way.circuit.method).upper(),
        tabulated=tabulated,
        caution=tabulated.caution,
    )
