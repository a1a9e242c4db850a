"""Continuity readings that show no path, or less than nothing."""

from collections.abc import Iterator

from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.part_by_part import of_each_way
from domain.checks.shared.phrases import phrase
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning, Reading
from domain.regulation import regulation

_found = FindingFactory("continuity")
_CONDUCTORS = ("ring_r1", "ring_rn", "ring_r2", "r1_r2", "r2")


@of_each_way
def continuity(job: Job, way: Way) -> Iterator[Finding]:
    """An open conductor fails; a negative resistance means the leads were nulled wrongly."""
    source = regulation("continuity of conductors", job.edition)
    for box in _CONDUCTORS:
        reading: Reading = getattr(way.circuit, box)
        if reading.meaning is Meaning.OVER:
            conductor = phrase(f"conductor-{box}")
            yield _found(job, way.at(box), Severity.FAILS, "open", source=source, reading=reading, conductor=conductor)
        elif reading.figure is not None and reading.figure < 0:
            yield _found(job, way.at(box), Severity.ASK, "negative", reading=reading)
