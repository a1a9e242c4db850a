"""What the tables allow the device of a circuit, by the system and the time the circuit must be cleared in."""

from typing import NamedTuple

from domain.checks.residual import residual_current
from domain.checks.ways import Way
from domain.job import Job
from domain.limits.disconnection import longest_time, short_time_fixed_only, short_time_with_sockets
from domain.limits.earth_fault import DeviceLimits, device_limits, rcd_limit
from domain.limits.limit import Limit
from domain.limits.loader import named_figure


class Tabulated(NamedTuple):
    """The figure that holds for one circuit on a TN system, out of those its device has."""

    limits: DeviceLimits
    limit: Limit
    may_be_slower: Limit | None
    """The figure of the longer time, where that holds if the circuit feeds fixed equipment only."""


def is_tn(job: Job) -> bool:
    """The system is TN, or none is typed yet."""
    return job.supply.system.strip().upper() not in {"TT", "IT"}


def is_tt(job: Job) -> bool:
    """The installation has an electrode of its own and relies on RCDs."""
    return job.supply.system.strip().upper() == "TT"


def is_public_voltage(job: Job) -> bool:
    """The tables hold for the public voltage; a typed U0 within its tolerance means that voltage."""
    u0 = job.supply.voltage_to_earth.figure
    lowest, highest = (
        named_figure("supply_voltage", f"{end}, line to earth", job.edition).value for end in ("lowest", "highest")
    )
    return u0 is None or lowest <= u0 <= highest


def tabulated_for(job: Job, way: Way) -> Tabulated | None:
    """What the tables allow on TN; None where they have no row for the device."""
    rating = way.circuit.rating.figure
    if rating is None or not is_public_voltage(job):
        return None
    limits = device_limits(way.circuit.device_standard, way.circuit.device_type, rating, job.edition)
    if limits is None:
        return None
    short, long = limits.short_time, limits.long_time
    has_short_time = not way.feeds_a_board and rating <= short_time_with_sockets(job.edition).value
    if short is None or not has_short_time:
        return Tabulated(limits, long, None) if long else None
    if long is None or rating <= short_time_fixed_only(job.edition).value:
        return Tabulated(limits, short, None)
    if way.circuit.zs_permitted.figure == long.value:
        return Tabulated(limits, long, None)
    return Tabulated(limits, short, long)


def tabulated_limit(job: Job, way: Way) -> Limit | None:
    """The table's figure for a circuit, before the factor for a cold reading; None where there is none."""
    if is_tn(job):
        found = tabulated_for(job, way)
        return found.limit if found else None
    idn = residual_current(job, way.circuit)
    return rcd_limit(idn, job.edition) if is_tt(job) and idn is not None else None


def time_of(job: Job, limits: DeviceLimits, limit: Limit) -> Limit | None:
    """The disconnection time a figure belongs to; None where the device has one figure for both times."""
    if not limits.depends_on_time:
        return None
    u0 = named_figure("loop", "U0", job.edition).value
    return longest_time("TN", "final" if limit == limits.short_time else "distribution", u0, job.edition)
