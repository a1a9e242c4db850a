"""Continuity readings that show no path, or less than nothing."""

from collections.abc import Iterator

from domain.checks.shared.circuits_in_use import ways_in_use
from domain.checks.shared.finding_factory import FindingFactory
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning, Reading
from domain.source import Source, Trust

_found = FindingFactory("continuity")
_CONDUCTORS = {
    "ring_r1": "the line conductor of the ring",
    "ring_rn": "the neutral of the ring",
    "ring_r2": "the cpc of the ring",
    "r1_r2": "line and cpc",
    "r2": "the cpc",
}


def continuity(job: Job) -> Iterator[Finding]:
    """An open conductor fails; a negative resistance means the leads were nulled wrongly."""
    source = Source(standard=str(job.edition), table="643.2.1", trust=Trust.MEMORY)
    for way in ways_in_use(job):
        for box, conductor in _CONDUCTORS.items():
            reading: Reading = getattr(way.circuit, box)
            if reading.meaning is Meaning.OVER:
                says = f"{reading.shown} Ω is over range, so {conductor} shows no continuity. Find the break or the loose joint"
                yield _found(job, way.at(box), Severity.FAILS, says, source=source)
            elif reading.figure is not None and reading.figure < 0:
                says = f"{reading.shown} Ω is less than nothing; null the leads again and repeat the test"
                yield _found(job, way.at(box), Severity.ASK, says)
