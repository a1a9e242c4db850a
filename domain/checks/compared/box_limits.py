"""The limit that a reading of a circuit is held against: its figure, its sum and its source, or why none is known."""

from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import NamedTuple

from domain.checks.dead_tests.insulation import minima_for
from domain.checks.live_tests.earth_fault import limit_by_rcd_of
from domain.checks.live_tests.rcd_time import row_for
from domain.checks.shared.applied_limit import AppliedLimit, limit_by_design, limit_for_cold_reading
from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.disconnection_class import scope_of, time_in
from domain.checks.shared.own_earth import is_way_on_tt
from domain.checks.shared.system import is_tn
from domain.checks.shared.tabulated import tabulated_for, time_of
from domain.figures.units import Ohms
from domain.job.job import Job
from domain.source import Source


class BoxLimit(NamedTuple):
    """What a box may read. Without either end no limit is known, and `why` says why."""

    at_least: Decimal | None = None
    at_most: Decimal | None = None
    unit: str = ""
    working: str = ""
    """The sum with its numbers, where the figure follows from another."""
    source: Source | None = None
    """The rule, with how far it can be trusted."""
    why: str = ""
    """What the limit is, or why there is none."""

    @property
    def shown(self) -> str:
        """Such as `at most 1.09 Ω`, `130 to 500 ms`; "" where no limit is known."""
        if self.at_least is not None and self.at_most is not None:
            return f"{self.at_least} to {self.at_most} {self.unit}"
        if self.at_most is not None:
            return f"at most {self.at_most} {self.unit}"
        return f"at least {self.at_least} {self.unit}" if self.at_least is not None else ""


def limit_in(job: Job, way: Way, box: str) -> BoxLimit:
    """The limit of one box of a circuit in use; pure, and the same figures the checks judge by."""
    rule = _RULES.get(box)
    return rule(job, way) if rule else BoxLimit(why="no limit known: no rule sets a figure for this box")


def _box_limit(applied: AppliedLimit) -> BoxLimit:
    return BoxLimit(
        at_most=applied.at_most, unit="Ω", working=applied.working, source=applied.source, why=applied.words
    )


def _zs(job: Job, way: Way) -> BoxLimit:
    permitted = way.circuit.zs_permitted.figure
    if is_way_on_tt(job, way):
        by_rcd = limit_by_rcd_of(way, job.edition)
        if permitted and (by_rcd is None or permitted < by_rcd.at_most):
            return _box_limit(limit_by_design(Ohms(permitted)))
        return _box_limit(by_rcd) if by_rcd else BoxLimit(why="no limit known: no RCD with a known IΔn protects it")
    if not is_tn(job):
        return BoxLimit(why="no limit known: the system is IT")
    found = tabulated_for(job, way)
    if found and not (permitted and permitted < found.limit.value):
        time = time_of(job, found.limits, found.limit)
        return _box_limit(limit_for_cold_reading(found.limit, found.limits.device, time, job.edition))
    if permitted:
        return _box_limit(limit_by_design(Ohms(permitted)))
    return BoxLimit(why="no limit known: the tables hold no row for the device as it is typed, at this voltage")


def _insulation(job: Job, way: Way) -> BoxLimit:
    fitting = minima_for(way.circuit.test_voltage.figure, job.edition)
    if not fitting:
        return BoxLimit(why=f"no limit known: {way.circuit.test_voltage.shown} V is no test voltage of the table")
    kind, most = fitting[-1]
    which = "every low-voltage circuit" if way.circuit.test_voltage.figure is None else f"a circuit {kind}"
    return BoxLimit(at_least=most.value, unit=most.unit, source=most.source, why=f"for {which}")


def _rcd_time(job: Job, way: Way) -> BoxLimit:
    if not way.rcds:
        return BoxLimit(why="no limit known: no RCD is recorded for the circuit, its board or the main switch")
    row = row_for(way.rcds[0], job.edition)
    if row is None:
        return BoxLimit(why="no limit known: the table has no row for this RCD")
    longest, shortest = row.figures["at_most"], row.figures.get("at_least")
    why = f"for {'a selective (S)' if shortest else 'a general type'} RCD to {row.texts['standard']} at its rated residual current"
    return BoxLimit(shortest.value if shortest else None, longest.value, longest.unit, source=longest.source, why=why)


def _disconnection(job: Job, way: Way) -> BoxLimit:
    scope = scope_of(job, way)
    longest = time_in(job, scope)
    if longest is None:
        return BoxLimit(why="no limit known: the table has no time for this voltage")
    return BoxLimit(
        at_most=longest.value, unit=longest.unit, source=longest.source, why=f"for a circuit that is {scope.value}"
    )


_RULES: Mapping[str, Callable[[Job, Way], BoxLimit]] = {
    "zs": _zs,
    "ir_live": _insulation,
    "ir_earth": _insulation,
    "rcd_time": _rcd_time,
    "disconnection_time": _disconnection,
}
