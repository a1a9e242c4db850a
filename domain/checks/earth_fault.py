"""Measured Zs against the limit of the protective device, on TN systems."""

from collections.abc import Iterator
from decimal import Decimal

from domain.checks.bar import Bar, cold_bar, design_bar, residual_bar
from domain.checks.residual import residual_current
from domain.checks.ways import Way, ways_in_use
from domain.circuit import Circuit
from domain.finding import Finding, Severity
from domain.job import Job
from domain.limits.disconnection import longest_time, short_time_fixed_only, short_time_with_sockets
from domain.limits.earth_fault import DeviceLimits, device_limits, rcd_limit
from domain.limits.limit import Limit
from domain.limits.loader import named_figure
from domain.reading import Meaning

_CHECK = "earth-fault-loop"
_READ = {Meaning.VALUE, Meaning.OVER}
_OTHER_SYSTEMS = {"TT", "IT"}


def earth_fault_loop(job: Job) -> Iterator[Finding]:
    """Zs must be low enough for the device to open in time; the RCD may do it where the breaker cannot."""
    if job.supply.system.strip().upper() in _OTHER_SYSTEMS:
        return
    for way in ways_in_use(job):
        if way.circuit.zs.meaning in _READ:
            yield from _judged(job, way)


def tabulated_limit(job: Job, way: Way) -> Limit | None:
    """The table's figure for a circuit's device, before the factor for a cold reading; None where there is none."""
    if job.supply.system.strip().upper() in _OTHER_SYSTEMS:
        return None
    limits = _limits_of(job, way.circuit)
    return _tabulated(job, way, limits) if limits else None


def _judged(job: Job, way: Way) -> Iterator[Finding]:
    circuit = way.circuit
    limits = _limits_of(job, circuit)
    tabulated = _tabulated(job, way, limits) if limits else None
    permitted = circuit.zs_permitted.figure
    if limits is None or tabulated is None:
        yield from _against(way, design_bar(permitted)) if permitted else _unknown(job, way)
        return
    bar = cold_bar(tabulated, limits.device, _time_named(job, limits, tabulated), job.edition)
    by_rcd = _residual(job, circuit)
    if permitted and permitted < tabulated.value:
        bar = design_bar(permitted)
    elif permitted and permitted > tabulated.value and not (by_rcd and permitted <= by_rcd.at_most):
        yield _laxer(way, permitted, tabulated, limits)
    if bar.holds(circuit.zs):
        return
    if by_rcd and by_rcd.holds(circuit.zs):
        yield _left_to_rcd(way, bar, by_rcd)
    elif _is_slower_enough(job, way, limits, tabulated):
        yield _depends_on_use(job, way, bar, limits)
    else:
        yield from _against(way, bar)


def _limits_of(job: Job, circuit: Circuit) -> DeviceLimits | None:
    rating = circuit.rating.figure
    if rating is None or not _is_nominal(job):
        return None
    return device_limits(circuit.device_standard, circuit.device_type, rating, job.edition)


def _is_nominal(job: Job) -> bool:
    """The tables hold for the public voltage; a typed U0 within its tolerance means that voltage."""
    u0 = job.supply.voltage_to_earth.figure
    lowest, highest = (
        named_figure("supply_voltage", f"{end}, line to earth", job.edition).value for end in ("lowest", "highest")
    )
    return u0 is None or lowest <= u0 <= highest


def _is_short(job: Job, way: Way) -> bool:
    rating = way.circuit.rating.figure
    return not way.feeds_a_board and rating is not None and rating <= short_time_with_sockets(job.edition).value


def _tabulated(job: Job, way: Way, limits: DeviceLimits) -> Limit | None:
    long, permitted = limits.long_time, way.circuit.zs_permitted.figure
    if not _is_short(job, way) or limits.short_time is None:
        return long
    designed_slow = long is not None and permitted == long.value and _may_be_slow(job, way)
    return long if designed_slow else limits.short_time


def _may_be_slow(job: Job, way: Way) -> bool:
    rating = way.circuit.rating.figure
    return rating is not None and rating > short_time_fixed_only(job.edition).value


def _time_named(job: Job, limits: DeviceLimits, tabulated: Limit) -> Limit | None:
    if not limits.depends_on_time:
        return None
    u0 = named_figure("loop", "U0", job.edition).value
    return longest_time("TN", "final" if tabulated == limits.short_time else "distribution", u0, job.edition)


def _residual(job: Job, circuit: Circuit) -> Bar | None:
    idn = residual_current(job, circuit)
    limit = rcd_limit(idn, job.edition) if idn is not None else None
    return residual_bar(limit, idn) if limit and idn is not None else None


def _is_slower_enough(job: Job, way: Way, limits: DeviceLimits, tabulated: Limit) -> bool:
    if not _may_be_slow(job, way) or limits.long_time is None or tabulated == limits.long_time:
        return False
    return cold_bar(limits.long_time, limits.device, None, job.edition).holds(way.circuit.zs)


def _against(way: Way, bar: Bar) -> Iterator[Finding]:
    if not bar.holds(way.circuit.zs):
        yield _finding(way, Severity.FAILS, bar, bar.excess(way.circuit.zs))


def _finding(way: Way, severity: Severity, bar: Bar, says: str) -> Finding:
    return Finding(
        check=_CHECK,
        place=way.at("zs"),
        severity=severity,
        measured=f"{way.circuit.zs.shown} Ω",
        limit=bar.shown,
        source=bar.source,
        says=says,
    )


def _left_to_rcd(way: Way, bar: Bar, by_rcd: Bar) -> Finding:
    says = (
        f"{bar.excess(way.circuit.zs)}; the RCD alone gives fault protection, up to {by_rcd.shown}. Is that the design?"
    )
    return _finding(way, Severity.ASK, bar, says)


def _depends_on_use(job: Job, way: Way, bar: Bar, limits: DeviceLimits) -> Finding:
    long = limits.long_time
    assert long is not None
    slower = cold_bar(long, limits.device, _time_named(job, limits, long), job.edition)
    says = (
        f"{bar.excess(way.circuit.zs)}, but within {slower.shown}, {slower.words}. "
        f"The longer time holds over {short_time_fixed_only(job.edition).shown} for fixed equipment only: is there no socket-outlet?"
    )
    return _finding(way, Severity.ASK, bar, says)


def _laxer(way: Way, permitted: Decimal, tabulated: Limit, limits: DeviceLimits) -> Finding:
    return Finding(
        check=_CHECK,
        place=way.at("zs_permitted"),
        severity=Severity.ASK,
        measured=f"{permitted} Ω",
        limit=tabulated.shown,
        source=tabulated.source,
        says=f"{permitted} Ω is typed as permitted, but the table allows a {limits.device} {tabulated.shown}"
        f"{tabulated.caution}; the reading is held against the table",
    )


def _unknown(job: Job, way: Way) -> Iterator[Finding]:
    circuit = way.circuit
    if not circuit.device_standard.strip() or circuit.rating.figure is None:
        return
    device = " ".join(
        word
        for word in (circuit.device_standard.strip(), circuit.device_type.strip(), f"{circuit.rating.shown} A")
        if word
    )
    why = "the tables hold no row for it" if _is_nominal(job) else "the tables hold for the public voltage only"
    yield Finding(
        check=_CHECK,
        place=way.at("zs"),
        severity=Severity.NOTE,
        measured=f"{circuit.zs.shown} Ω",
        says=f"No limit known for {device}: {why}. Type the maximum permitted Zs from the design or the maker",
    )
