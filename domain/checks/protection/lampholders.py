"""Lighting behind a device too large for ordinary lampholders."""

from collections.abc import Iterator

from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.part_by_part import of_each_way
from domain.checks.shared.severities import shortfall
from domain.checks.shared.uses import use_of
from domain.figures.limits.loader import named_figure
from domain.job.finding import Finding
from domain.job.job import Job

_found = FindingFactory("lampholders")


@of_each_way
def lampholders(job: Job, way: Way) -> Iterator[Finding]:
    """Bayonet and small screw lampholders stand behind 16 A at most; larger, only what is made for it."""
    most = named_figure("circuit_rules", "lighting with ordinary lampholders, device up to", job.edition)
    rating, use = way.circuit.rating, use_of(way.circuit)
    if not use.lights or way.feeds_a_board or (use.is_guess and use.sockets):
        return
    if rating.figure is not None and rating.figure > most.value:
        typed = {"description": way.circuit.description.strip(), "feeds": way.circuit.feeds.strip()}
        yield _found(
            job,
            way.at("rating"),
            shortfall(job),
            "over",
            limit=most,
            typed=typed,
            rating=rating,
            caution=most.caution,
        )
