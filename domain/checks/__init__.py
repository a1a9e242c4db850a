"""The checks, in the order of testing. Each is a plain function that yields findings."""

from collections.abc import Callable, Iterator

from domain.finding import Finding
from domain.job import Job

Check = Callable[[Job], Iterator[Finding]]

CHECKS: tuple[Check, ...] = ()


def findings_of(job: Job) -> tuple[Finding, ...]:
    """Every finding of every check, in order of testing."""
    return tuple(finding for check in CHECKS for finding in check(job))
