"""A trail gone through again: the commands applied one after another give the job as it stands, or somebody altered one of the two."""

from collections.abc import Callable, Iterable
from typing import NamedTuple

from domain.editing.commands import Command
from domain.editing.reducer import apply
from domain.editing.undo import Edit, made_again
from domain.job.job import Job

PUT_RIGHT = "Put right: "
"""Begins what the trail of a report says once the log shows it as put right."""
ISSUED = "Issued"
REPLACED_BY = "Replaced by "
BEGUN_TO_REPLACE = "Begun to replace "


class TrailStep(NamedTuple):
    """An edit of a trail, as it is gone through again."""

    edit: Edit
    who: str
    command: Command | None


def leads_to(begun: Job, steps: Iterable[TrailStep], job: Job) -> bool:
    """The trail of a job that began so leads to the job as it stands; one that was issued since, to what was issued."""
    taken = [*steps]
    draft = job.model_copy(update={"issued": None})
    # Commands may mean something else to this version than to the one that kept them; what they changed does not.
    return any(_played(begun, taken, step) == draft for step in (_by_command, _by_changes))


def _played(begun: Job, steps: Iterable[TrailStep], step: Callable[[Job, TrailStep], Job | None]) -> Job | None:
    job = begun
    for each in steps:
        after = step(job, each)
        if after is None:
            return None
        job = after
    return job


def _by_command(job: Job, step: TrailStep) -> Job | None:
    if step.command is None:
        return _by_changes(job, step)
    after = apply(job, step.command)
    return after if isinstance(after, Job) else None


def _by_changes(job: Job, step: TrailStep) -> Job | None:
    if not step.edit.changes:
        return job
    after = made_again(job, step.edit)
    if not isinstance(after, Job):
        return None
    # Ids are never given back, so what was changed does not tell them.
    given = apply(job, step.command) if step.command else job
    return after.model_copy(update={"next_id": given.next_id if isinstance(given, Job) else job.next_id})
