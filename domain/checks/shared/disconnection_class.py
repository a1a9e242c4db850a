"""Which disconnection time a circuit has: that of Table 41.1, or the longer one of distribution circuits."""

import re
from enum import Enum

from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.per_job_cache import cached_per_job_and
from domain.checks.shared.system import is_public_voltage, is_tt
from domain.checks.shared.uses import use_of
from domain.figures.limits.disconnection import longest_time, short_time_fixed_only, short_time_with_sockets
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure
from domain.figures.units import Seconds
from domain.job.box import answers_in
from domain.job.circuit_use import OTHER
from domain.job.job import Job

_SURELY_FIXED = re.compile(
    r"\bshowers?\b|\bwater heater|\bimmersion|\bheat ?pump|\bboiler\b|\bmotors?\b|\bpumps?\b|\bfans?\b|\blifts?\b|\bcompressors?\b",
    re.IGNORECASE,
)


class DisconnectionClass(Enum):
    """The time that holds for a circuit."""

    SHORT = "final"
    """A final circuit within the scope of Table 41.1."""
    LONG = "distribution"
    """A distribution circuit, or a final circuit outside that scope."""
    EITHER = "final, the longer time where it feeds fixed equipment only"


def scope_of(job: Job, way: Way) -> DisconnectionClass:
    """As the rating and the description tell."""
    rating = way.circuit.rating.figure
    if way.feeds_a_board or (rating is not None and rating > short_time_with_sockets(job.edition).value):
        return DisconnectionClass.LONG
    use = use_of(way.circuit)
    if rating is None or rating <= short_time_fixed_only(job.edition).value or use.sockets:
        return DisconnectionClass.SHORT
    if not use.is_guess and OTHER not in answers_in(way.circuit.feeds):
        return DisconnectionClass.LONG
    return DisconnectionClass.LONG if _SURELY_FIXED.search(way.circuit.description) else DisconnectionClass.EITHER


def scope_in_force(job: Job, way: Way) -> DisconnectionClass:
    """The same, where the time typed for the circuit may settle it or ask for more than the rule does."""
    scope, typed, short = (
        scope_of(job, way),
        way.circuit.disconnection_time.figure,
        time_in(job, DisconnectionClass.SHORT),
    )
    if scope is DisconnectionClass.SHORT or typed is None or typed <= 0 or short is None:
        return scope
    if typed <= short.value:
        return DisconnectionClass.SHORT
    return DisconnectionClass.LONG if scope is DisconnectionClass.EITHER else scope


def time_in(job: Job, scope: DisconnectionClass) -> Limit[Seconds] | None:
    """The longest time of a scope on the system of the job, in seconds; None where the table has no such voltage."""
    short, long = _times(job)
    return short if scope is DisconnectionClass.SHORT else long


@cached_per_job_and
def _times(job: Job) -> tuple[Limit[Seconds] | None, Limit[Seconds] | None]:
    """The short time and the long one."""
    typed = job.supply.voltage_to_earth.figure
    is_public = typed is None or is_public_voltage(job)
    u0 = named_figure("loop", "U0", job.edition).value if is_public or typed is None else typed
    system = "TT" if is_tt(job) else "TN"
    short, long = (
        longest_time(system, scope.value, u0, job.edition)
        for scope in (DisconnectionClass.SHORT, DisconnectionClass.LONG)
    )
    return short, long
