"""The disconnection time typed for a circuit, against the one the rules give it."""

from collections.abc import Iterator

from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.decimal_slip import did_you_mean
from domain.checks.shared.disconnection_class import DisconnectionClass, scope_of, time_in
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.part_by_part import of_each_way
from domain.checks.shared.phrases import phrase
from domain.figures.limits.limit import Limit
from domain.job.finding import Finding, Severity
from domain.job.job import Job

_found = FindingFactory("disconnection-time")
_IN_MILLISECONDS = (-3, -1, 1)
_KINDS = {
    DisconnectionClass.SHORT: "final-circuit",
    DisconnectionClass.LONG: "distribution-circuit",
    DisconnectionClass.EITHER: "final-circuit-fixed",
}


@of_each_way
def disconnection_time(job: Job, way: Way) -> Iterator[Finding]:
    """No circuit may take longer than its rule allows; a stricter time counts as it stands."""
    typed, longest = way.circuit.disconnection_time.figure, time_in(job, scope_of(job, way))
    if typed is not None and longest and typed > longest.value:
        yield _too_long(job, way, longest)


def _too_long(job: Job, way: Way, longest: Limit) -> Finding:
    typed = way.circuit.disconnection_time
    system = job.supply.system.strip() or "TN"
    slip = did_you_mean(typed, "s", lambda moved: moved == longest.value, _IN_MILLISECONDS)
    return _found(
        job,
        way.at("disconnection_time"),
        Severity.ASK,
        "too-long",
        limit=longest,
        typed={"system": job.supply.system.strip(), "rating": way.circuit.rating.typed},
        time=typed,
        kind=phrase(_KINDS[scope_of(job, way)]),
        system=system,
        next=slip or phrase("correct-the-time"),
    )
