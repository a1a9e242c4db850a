"""What the tables allow the device of a circuit, by the system and the time the circuit must be cleared in."""

from typing import NamedTuple

from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.disconnection_class import DisconnectionClass, scope_in_force
from domain.checks.shared.own_earth import is_way_on_tt
from domain.checks.shared.rcds import most_sensitive
from domain.checks.shared.system import is_public_voltage, is_tn
from domain.figures.limits.disconnection import longest_time
from domain.figures.limits.earth_fault import DeviceLimits, device_limits, rcd_limit
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure
from domain.figures.units import Ohms, Seconds
from domain.job.job import Job


class Tabulated(NamedTuple):
    """The figure that holds for one circuit on a TN system, out of those its device has."""

    limits: DeviceLimits
    limit: Limit[Ohms]
    may_be_slower: Limit[Ohms] | None
    """The figure of the longer time, where that holds if the circuit feeds fixed equipment only."""


def tabulated_for(job: Job, way: Way) -> Tabulated | None:
    """What the tables allow on TN; None where they have no row for the device."""
    rating = way.circuit.rating.figure
    if rating is None or not is_public_voltage(job):
        return None
    limits = device_limits(way.circuit.device_standard, way.circuit.device_type, rating, job.edition)
    if limits is None:
        return None
    short, long, scope = limits.short_time, limits.long_time, scope_in_force(job, way)
    if short is None or scope is DisconnectionClass.LONG:
        return Tabulated(limits, long, None) if long else None
    if long is None or scope is DisconnectionClass.SHORT:
        return Tabulated(limits, short, None)
    if way.circuit.zs_permitted.figure == long.value:
        return Tabulated(limits, long, None)
    return Tabulated(limits, short, long)


def tabulated_limit(job: Job, way: Way) -> Limit[Ohms] | None:
    """The table's figure for a circuit, before the factor for a cold reading; None where there is none."""
    is_electrode = is_way_on_tt(job, way)
    if is_tn(job) and not is_electrode:
        found = tabulated_for(job, way)
        return found.limit if found else None
    idn = most_sensitive(way.rcds)
    return rcd_limit(idn, job.edition) if is_electrode and idn is not None else None


def time_of(job: Job, limits: DeviceLimits, limit: Limit[Ohms]) -> Limit[Seconds] | None:
    """The disconnection time a figure belongs to; None where the device has one figure for both times."""
    if not limits.depends_on_time:
        return None
    u0 = named_figure("loop", "U0", job.edition).value
    return longest_time("TN", "final" if limit == limits.short_time else "distribution", u0, job.edition)
