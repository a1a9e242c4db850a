"""The edition a job names, against the day it was done."""

from collections.abc import Iterator

from domain.checks.shared.finding_factory import FindingFactory
from domain.dates import written
from domain.edition import edition_for
from domain.job.explanation import EDITION_CHECK
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.next_due import day_place, day_typed, done_on

_found = FindingFactory(EDITION_CHECK)


def edition_named(job: Job) -> Iterator[Finding]:
    """An edition not yet published on that day is noted; one withdrawn by then is asked about."""
    place, typed, day, facts = day_place(job), day_typed(job), done_on(job), job.edition.facts
    if day is None:
        return
    said = {"edition": job.edition_in_full, "follows": str(edition_for(day))}
    if facts.withdrawn and day > facts.withdrawn:
        said["day"] = written(facts.withdrawn)
        yield _found(job, place, Severity.ASK, "withdrawn", source=facts.source, measured=typed, said=said)
    elif facts.published and day < facts.published:
        said["day"] = written(facts.published)
        yield _found(job, place, Severity.NOTE, "not-published-yet", source=facts.source, measured=typed, said=said)
