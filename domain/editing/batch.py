"""Several commands done as one: all of them, or none where one cannot be done."""

from collections.abc import Callable, Iterable
from typing import TypeVar

from domain.editing.commands import Declined
from domain.job.job import Job

Part = TypeVar("Part")


def in_turn(job: Job, parts: Iterable[Part], do: Callable[[Job, Part], Job | Declined]) -> Job | Declined:
    """The job after each part in its turn, or why one of them was declined."""
    for part in parts:
        after = do(job, part)
        if isinstance(after, Declined):
            return after
        job = after
    return job
