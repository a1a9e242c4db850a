"""What many checks ask of a job is worked out once: a job never changes, so the same one always gives the same."""

from collections.abc import Callable
from functools import wraps
from typing import TypeVar

from domain.job.job import Job

T = TypeVar("T")


def cached_per_job_and(work: Callable[[Job], T]) -> Callable[[Job], T]:
    """Keep what the last job gave. It is known by identity, since comparing whole jobs costs more than the work."""
    last: tuple[Job, T] | None = None

    @wraps(work)
    def kept(job: Job) -> T:
        nonlocal last
        held = last
        if held is None or held[0] is not job:
            held = last = (job, work(job))
        return held[1]

    return kept
