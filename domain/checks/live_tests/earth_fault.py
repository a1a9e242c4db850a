"""Measured Zs against the limit of the protective device, on TN systems."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from domain.checks.shared.applied_limit import AppliedLimit, limit_by_design, limit_by_rcd, limit_for_cold_reading
from domain.checks.shared.cables import in_service
from domain.checks.shared.circuits_in_use import Way, numbers_of, ways_in_use
from domain.checks.shared.expected import impedance_before
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.own_earth import is_way_on_tt
from domain.checks.shared.part_by_part import way_by_way
from domain.checks.shared.rcds import most_sensitive
from domain.checks.shared.system import is_over_public_voltage, is_public_voltage, is_tn
from domain.checks.shared.tabulated import Tabulated, tabulated_for, time_of
from domain.checks.shared.tolerances import loop_margin
from domain.edition import Edition
from domain.figures.formulas.loop import zs as sum_of
from domain.figures.limits.earth_fault import rcd_limit
from domain.figures.limits.limit import Limit
from domain.figures.units import Ohms
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning
from domain.place import Place

_found = FindingFactory("earth-fault-loop")
_READ = {Meaning.VALUE, Meaning.OVER, Meaning.UNDER}


def earth_fault_loop(job: Job) -> Iterator[Finding]:
    """Zs must be low enough for the device to open in time; the RCD may do it where the breaker cannot."""
    if not is_tn(job):
        return
    yield from _other_voltage(job)
    unknown: dict[tuple[str, str], list[Way]] = {}
    for way, found in _of_ways(job):
        if isinstance(found, Finding):
            yield found
        else:
            unknown.setdefault((way.board.id, found), []).append(way)
    if is_public_voltage(job):
        yield from (_unknown(job, ways) for (_, device), ways in unknown.items() if device)


def _of_a_way(job: Job, way: Way) -> Iterator[Finding | str]:
    """What is wrong with its Zs; its device, where neither a table nor the design has a limit for it."""
    if way.circuit.zs.meaning not in _READ or is_way_on_tt(job, way):
        return
    tabulated = tabulated_for(job, way)
    permitted = way.circuit.zs_permitted.figure
    if tabulated:
        yield from _against_table(job, way, tabulated)
    elif permitted:
        yield from _against(job, way, limit_by_design(Ohms(permitted)))
    else:
        yield _device(way)


_of_ways = way_by_way(_of_a_way)


def _against_table(job: Job, way: Way, tabulated: Tabulated) -> Iterator[Finding]:
    """A stricter figure of the designer counts as it stands; a laxer one is asked about and does not count."""
    zs, permitted = way.circuit.zs, way.circuit.zs_permitted.figure
    applied = _cold(job, tabulated, tabulated.limit)
    by_rcd = limit_by_rcd_of(way, job.edition)
    if permitted and permitted < tabulated.limit.value:
        applied = limit_by_design(Ohms(permitted))
    elif permitted and permitted > tabulated.limit.value and not (by_rcd and permitted <= by_rcd.at_most):
        yield _laxer(job, way, permitted, tabulated)
    if applied.holds(zs):
        return
    if zs.meaning is Meaning.UNDER:
        yield _found(job, way.at("zs"), Severity.ASK, "not-shown", limit=applied, zs=zs)
        return
    if applied.tabulated and zs.figure is not None and zs.figure <= tabulated.limit.value:
        yield _by_the_closer_sum(job, way, tabulated, applied)
        return
    slower = _cold(job, tabulated, tabulated.may_be_slower) if tabulated.may_be_slower else None
    if by_rcd and by_rcd.holds(zs):
        yield _over(job, way, Severity.ASK, "left-to-rcd", applied)
    elif slower and slower.holds(zs):
        yield _over(job, way, Severity.ASK, "depends-on-use", applied)
    else:
        yield from _against(job, way, applied)


def _cold(job: Job, tabulated: Tabulated, limit: Limit[Ohms]) -> AppliedLimit:
    return limit_for_cold_reading(limit, tabulated.limits.device, time_of(job, tabulated.limits, limit), job.edition)


def limit_by_rcd_of(way: Way, edition: Edition) -> AppliedLimit | None:
    """The limit where the most sensitive RCD before the circuit gives fault protection; None where none is known."""
    idn = most_sensitive(way.rcds)
    limit = rcd_limit(idn, edition) if idn is not None else None
    return limit_by_rcd(limit, idn) if limit and idn is not None else None


def _by_the_closer_sum(job: Job, way: Way, tabulated: Tabulated, applied: AppliedLimit) -> Finding:
    """Between the factor for a cold reading and the table itself: what Ze and the warm conductors come to decides."""
    circuit, limit = way.circuit, tabulated.limit
    before, name = impedance_before(job, way.board)
    said = {"cold": applied.shown, "device": tabulated.limits.device, "name": name}
    typed = {"device": _device(way), "before": before.typed, "r1_r2": circuit.r1_r2.typed}
    if before.figure is None or circuit.r1_r2.figure is None:
        return _found(
            job, way.at("zs"), Severity.ASK, "closer-sum-open", limit=limit, typed=typed, said=said, zs=circuit.zs
        )
    factor = in_service(circuit, job.edition)
    working = sum_of(before.figure, circuit.r1_r2.figure, factor.value.normalize())
    case = "closer-sum-within" if working.value <= limit.value else "closer-sum-over"
    cold = before.figure + circuit.r1_r2.figure
    if circuit.zs.figure is not None and circuit.zs.figure > cold + loop_margin(
        Ohms(cold), job.edition, by_rcd=bool(way.rcds)
    ):
        case = "closer-sum-apart"
    return _found(
        job,
        way.at("zs"),
        Severity.ASK,
        case,
        limit=limit,
        working=working.sum,
        typed=typed,
        factor=factor,
        sum=working.sum,
        said=said,
        zs=circuit.zs,
    )


def _against(job: Job, way: Way, applied: AppliedLimit) -> Iterator[Finding]:
    if way.circuit.zs.meaning is Meaning.UNDER and not applied.holds(way.circuit.zs):
        yield _found(job, way.at("zs"), Severity.ASK, "not-shown", limit=applied, zs=way.circuit.zs)
    elif not applied.holds(way.circuit.zs):
        yield _over(job, way, Severity.FAILS, "over-limit", applied)


def _over(job: Job, way: Way, severity: Severity, case: str, applied: AppliedLimit) -> Finding:
    """Zs over a limit; what else it was held against was typed for the circuit as well."""
    circuit = way.circuit
    return _found(
        job,
        way.at("zs"),
        severity,
        case,
        limit=applied,
        working=applied.working,
        typed={"device": _device(way), "permitted": circuit.zs_permitted.typed},
        excess=applied.excess(circuit.zs),
    )


def _laxer(job: Job, way: Way, permitted: Decimal, tabulated: Tabulated) -> Finding:
    return _found(
        job,
        way.at("zs_permitted"),
        Severity.ASK,
        "design-laxer",
        limit=tabulated.limit,
        measured=f"{permitted} Ω",
        typed={"device": _device(way)},
        permitted=permitted,
        device=tabulated.limits.device,
        caution=tabulated.limit.caution,
    )


def _device(way: Way) -> str:
    """The device as it is typed; "" while it, or its rating, is not."""
    circuit = way.circuit
    standard = circuit.device_standard.strip()
    if not standard or circuit.rating.figure is None:
        return ""
    return " ".join(word for word in (standard, circuit.device_type.strip(), f"{circuit.rating.shown} A") if word)


def _unknown(job: Job, ways: Sequence[Way]) -> Finding:
    """Said once for all circuits of a board that have the same device."""
    place, device = ways[0].at("zs"), _device(ways[0])
    if len(ways) == 1:
        return _found(job, place, Severity.NOTE, "no-limit", device=device)
    return _found(job, place, Severity.NOTE, "no-limit-on-several", device=device, circuits=numbers_of(ways))


def _other_voltage(job: Job) -> Iterator[Finding]:
    """Said once: it is the same for every circuit whose limit the design does not give."""
    is_open = any(way.circuit.zs.meaning in _READ and not way.circuit.zs_permitted.figure for way in ways_in_use(job))
    if is_public_voltage(job) or not is_open:
        return
    place = Place(section="supply", box="voltage_to_earth")
    severity = Severity.ASK if is_over_public_voltage(job) else Severity.NOTE
    yield _found(job, place, severity, "other-voltage", voltage=job.supply.voltage_to_earth)
