"""Measured Zs on TT systems, where an RCD has to clear the fault."""

from collections.abc import Iterator
from decimal import Decimal

from domain.checks.shared.applied_limit import limit_by_design, limit_by_rcd, limit_for_cold_reading
from domain.checks.shared.circuits_in_use import Way, ways_in_use
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.own_earth import is_way_on_tt
from domain.checks.shared.part_by_part import of_each_way
from domain.checks.shared.rcds import most_sensitive, says_none, switch_rcd
from domain.checks.shared.system import is_tn, is_tt
from domain.figures.limits.earth_fault import device_limits, rcd_limit
from domain.figures.limits.loader import named_figure
from domain.figures.units import Milliamperes, Ohms
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning
from domain.place import Place

_found = FindingFactory("earth-fault-loop-tt")
_READ = {Meaning.VALUE, Meaning.OVER, Meaning.UNDER}
_NO_RATING = Decimal(0)


def earth_fault_loop_tt(job: Job) -> Iterator[Finding]:
    """On TT the touch voltage rules: RA × IΔn, or Zs in its place, within the table for the RCD."""
    yield from _of_ways(job)
    if is_tt(job):
        yield from _behind_the_main_rcd(job)
    elif not is_tn(job) and any(way.circuit.zs.meaning in _READ for way in ways_in_use(job)):
        yield _found(job, Place(section="supply", box="system"), Severity.NOTE, "it-system")


@of_each_way
def _of_ways(job: Job, way: Way) -> Iterator[Finding]:
    if way.circuit.zs.meaning in _READ and is_way_on_tt(job, way):
        yield from _on_tt(job, way)


def _on_tt(job: Job, way: Way) -> Iterator[Finding]:
    circuit, permitted = way.circuit, way.circuit.zs_permitted.figure
    idn = most_sensitive(way.rcds)
    if idn is None:
        yield from _without_rcd(job, way)
        return
    limit = rcd_limit(idn, job.edition)
    applied = limit_by_rcd(limit, idn) if limit else None
    if permitted and (applied is None or permitted < applied.at_most):
        applied = limit_by_design(Ohms(permitted))
    if applied is None:
        yield _found(job, way.at("zs"), Severity.NOTE, "no-limit", idn=idn)
    elif not applied.holds(circuit.zs) and circuit.zs.meaning is Meaning.UNDER:
        yield _found(job, way.at("zs"), Severity.ASK, "not-shown", limit=applied, zs=circuit.zs)
    elif not applied.holds(circuit.zs):
        typed = {"idn": str(idn), "permitted": circuit.zs_permitted.typed}
        excess = applied.excess(circuit.zs)
        yield _found(job, way.at("zs"), Severity.FAILS, "over-limit", limit=applied, typed=typed, excess=excess)
    else:
        yield from _unstable(job, way)


def _behind_the_main_rcd(job: Job) -> Iterator[Finding]:
    """What lies between an RCD main switch and more sensitive ones has that switch alone; circuits without another say so themselves."""
    rcd, ze = switch_rcd(job), job.supply.ze
    idn = rcd.idn.figure if rcd else None
    if idn is None or idn <= 0 or ze.meaning not in _READ:
        return
    sensitive = [most_sensitive(way.rcds) for way in ways_in_use(job)]
    limit = rcd_limit(Milliamperes(idn), job.edition)
    if limit is None or any(each is None or each >= idn for each in sensitive) or not sensitive:
        return
    applied = limit_by_rcd(limit, Milliamperes(idn))
    if not applied.holds(ze) and ze.meaning is not Meaning.UNDER:
        typed = {"idn": str(idn)}
        place = Place(section="supply", box="ze")
        yield _found(
            job, place, Severity.FAILS, "over-limit-of-main", limit=applied, typed=typed, excess=applied.excess(ze)
        )


def _without_rcd(job: Job, way: Way) -> Iterator[Finding]:
    circuit = way.circuit
    if way.rcds or not says_none(circuit):
        return
    limits = device_limits(
        circuit.device_standard, circuit.device_type, circuit.rating.figure or _NO_RATING, job.edition
    )
    applied = (
        limit_for_cold_reading(limits.short_time, limits.device, None, job.edition)
        if limits and limits.short_time
        else None
    )
    if applied and applied.holds(circuit.zs):
        device = circuit.device_standard
        typed = {"rcd_standard": circuit.rcd_standard.strip(), "device_standard": device.strip()}
        yield _found(
            job, way.at("zs"), Severity.ASK, "no-rcd-but-low", limit=applied, typed=typed, zs=circuit.zs, device=device
        )
    else:
        source = named_figure("loop", "touch voltage", job.edition).source
        yield _found(job, way.at("zs"), Severity.FAILS, "no-rcd", source=source)


def _unstable(job: Job, way: Way) -> Iterator[Finding]:
    steady = named_figure("plausibility", "electrode may be unstable above", job.edition)
    zs, known = (
        way.circuit.zs.figure,
        (job.earthing.electrode_resistance.figure, way.board.zs.figure, job.supply.ze.figure),
    )
    is_said = any(each is not None and each > steady.value for each in known)
    if zs is not None and zs > steady.value and not is_said:
        yield _found(job, way.at("zs"), Severity.ASK, "unstable", limit=steady, zs=way.circuit.zs)
