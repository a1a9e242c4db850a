"""A draft laid aside, and taken up again: it changes nothing that is signed."""

from collections.abc import Callable
from typing import Any

from domain.editing.commands import Command, Declined, LayAside, TakeUp
from domain.job.job import Job
from domain.value import Value


def declined_as_it_stands(job: Job, command: Command) -> Declined | None:
    """Nothing is changed in what was issued, nor in a draft while it is laid aside."""
    if job.issued:
        return Declined(
            says="It has been issued and can no longer be changed; correct it by a new document that replaces it"
        )
    if not job.laid_aside or type(command) in LAYING_ASIDE:
        return None
    return Declined(says="It is laid aside; take it up again before anything in it is changed")


def _lay_aside(job: Job, command: LayAside) -> Job:
    return job.model_copy(update={"laid_aside": True})


def _take_up(job: Job, command: TakeUp) -> Job:
    return job.model_copy(update={"laid_aside": False})


LAYING_ASIDE: dict[type[Value], Callable[[Job, Any], Job | Declined]] = {LayAside: _lay_aside, TakeUp: _take_up}
"""What is done by each command."""
