"""Measured Zs against the limit of the protective device, on TN systems."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from domain.checks.shared.applied_limit import AppliedLimit, cold_bar, design_bar, residual_bar
from domain.checks.shared.circuits_in_use import Way, numbers_of, ways_in_use
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.rcds import most_sensitive
from domain.checks.shared.system import is_over_public_voltage, is_public_voltage, is_tn
from domain.checks.shared.tabulated import Tabulated, tabulated_for, time_of
from domain.edition import Edition
from domain.figures.limits.disconnection import short_time_fixed_only
from domain.figures.limits.earth_fault import rcd_limit
from domain.figures.limits.limit import Limit
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning
from domain.place import Place

_found = FindingFactory("earth-fault-loop")
_WHAT_TO_DO = ". Loose joint, or another cable or device?"
_READ = {Meaning.VALUE, Meaning.OVER}


def earth_fault_loop(job: Job) -> Iterator[Finding]:
    """Zs must be low enough for the device to open in time; the RCD may do it where the breaker cannot."""
    if not is_tn(job):
        return
    yield from _other_voltage(job)
    unknown: dict[tuple[str, str], list[Way]] = {}
    for way in ways_in_use(job):
        if way.circuit.zs.meaning not in _READ:
            continue
        tabulated = tabulated_for(job, way)
        permitted = way.circuit.zs_permitted.figure
        if tabulated:
            yield from _against_table(job, way, tabulated)
        elif permitted:
            yield from _against(job, way, design_bar(permitted))
        else:
            unknown.setdefault((way.board.id, _device(way)), []).append(way)
    if is_public_voltage(job):
        yield from (_unknown(job, ways) for (_, device), ways in unknown.items() if device)


def _against_table(job: Job, way: Way, tabulated: Tabulated) -> Iterator[Finding]:
    """A stricter figure of the designer counts as it stands; a laxer one is asked about and does not count."""
    zs, permitted = way.circuit.zs, way.circuit.zs_permitted.figure
    bar = _cold(job, tabulated, tabulated.limit)
    by_rcd = residual_bar_for(way, job.edition)
    if permitted and permitted < tabulated.limit.value:
        bar = design_bar(permitted)
    elif permitted and permitted > tabulated.limit.value and not (by_rcd and permitted <= by_rcd.at_most):
        yield _laxer(job, way, permitted, tabulated)
    if bar.holds(zs):
        return
    slower = _cold(job, tabulated, tabulated.may_be_slower) if tabulated.may_be_slower else None
    if by_rcd and by_rcd.holds(zs):
        yield _left_to_rcd(job, way, bar, by_rcd)
    elif slower and slower.holds(zs):
        yield _depends_on_use(job, way, bar, slower)
    else:
        yield from _against(job, way, bar)


def _cold(job: Job, tabulated: Tabulated, limit: Limit) -> AppliedLimit:
    return cold_bar(limit, tabulated.limits.device, time_of(job, tabulated.limits, limit), job.edition)


def residual_bar_for(way: Way, edition: Edition) -> AppliedLimit | None:
    """The limit where the most sensitive RCD before the circuit gives fault protection; None where none is known."""
    idn = most_sensitive(way.rcds)
    limit = rcd_limit(idn, edition) if idn is not None else None
    return residual_bar(limit, idn) if limit and idn is not None else None


def _against(job: Job, way: Way, bar: AppliedLimit) -> Iterator[Finding]:
    if not bar.holds(way.circuit.zs):
        says = bar.excess(way.circuit.zs) + _WHAT_TO_DO
        yield _found(job, way.at("zs"), Severity.FAILS, says, limit=bar, working=bar.working)


def _left_to_rcd(job: Job, way: Way, bar: AppliedLimit, by_rcd: AppliedLimit) -> Finding:
    says = (
        f"{bar.excess(way.circuit.zs)}; the RCD alone gives fault protection, up to {by_rcd.shown}. Is that the design?"
    )
    return _found(job, way.at("zs"), Severity.ASK, says, limit=bar, working=bar.working)


def _depends_on_use(job: Job, way: Way, bar: AppliedLimit, slower: AppliedLimit) -> Finding:
    says = (
        f"{bar.excess(way.circuit.zs)}, but within {slower.shown}, {slower.words}. "
        f"Over {short_time_fixed_only(job.edition).shown} the longer time holds for fixed equipment only: "
        "is there no socket-outlet?"
    )
    return _found(job, way.at("zs"), Severity.ASK, says, limit=bar, working=bar.working)


def _laxer(job: Job, way: Way, permitted: Decimal, tabulated: Tabulated) -> Finding:
    limit = tabulated.limit
    says = (
        f"{permitted} Ω is typed as permitted, but the table allows a {tabulated.limits.device} {limit.shown}"
        f"{limit.caution}; the reading is held against the table"
    )
    return _found(job, way.at("zs_permitted"), Severity.ASK, says, limit=limit, measured=f"{permitted} Ω")


def _device(way: Way) -> str:
    """The device as it is typed; "" while it, or its rating, is not."""
    circuit = way.circuit
    standard = circuit.device_standard.strip()
    if not standard or circuit.rating.figure is None:
        return ""
    return " ".join(word for word in (standard, circuit.device_type.strip(), f"{circuit.rating.shown} A") if word)


def _unknown(job: Job, ways: Sequence[Way]) -> Finding:
    """Said once for all circuits of a board that have the same device."""
    where = f" on {numbers_of(ways)}" if len(ways) > 1 else ""
    says = (
        f"No limit known for {_device(ways[0])}{where}: the tables hold no row for it. Type the maximum permitted Zs from "
        "the design or the maker"
    )
    return _found(job, ways[0].at("zs"), Severity.NOTE, says)


def _other_voltage(job: Job) -> Iterator[Finding]:
    """Said once: it is the same for every circuit."""
    if is_public_voltage(job) or not any(way.circuit.zs.meaning in _READ for way in ways_in_use(job)):
        return
    says = (
        f"U0 is typed as {job.supply.voltage_to_earth.shown} V, but the tables of Zs hold for the public voltage only, so "
        "no limit is known for any circuit. Correct U0, or type the maximum permitted Zs of each circuit from the design"
    )
    place = Place(section="supply", box="voltage_to_earth")
    yield _found(job, place, Severity.ASK if is_over_public_voltage(job) else Severity.NOTE, says)
