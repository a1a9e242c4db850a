"""The edition a job names, against the day it was done."""

from collections.abc import Iterator

from domain.checks.shared.finding_factory import FindingFactory
from domain.dates import written
from domain.edition import A2_WITHDRAWN, A4_PUBLISHED, Edition
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.next_due import day_place, day_typed, done_on
from domain.source import Source, Trust

_found = FindingFactory("edition")
_SOURCE = Source(
    standard=str(Edition.A4),
    table="publication and withdrawal as announced",
    seen_in="the trade press",
    trust=Trust.PUBLISHED,
)


def edition_named(job: Job) -> Iterator[Finding]:
    """An edition not yet published on that day, or withdrawn by then. Work designed before may keep the older one."""
    day = done_on(job)
    if day is None:
        return
    if job.edition is Edition.A2 and day > A2_WITHDRAWN:
        case, day_named = "withdrawn", A2_WITHDRAWN
    elif job.edition is Edition.A4 and day < A4_PUBLISHED:
        case, day_named = "not-published-yet", A4_PUBLISHED
    else:
        return
    place, typed, said = day_place(job), day_typed(job), {"edition": str(job.edition), "day": written(day_named)}
    yield _found(job, place, Severity.NOTE, case, source=_SOURCE, measured=typed, said=said)
