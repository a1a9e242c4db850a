"""What is done to the pictures of a job."""

from collections.abc import Callable
from typing import Any

from domain.editing.commands import AddPicture, Declined, RemovePicture
from domain.job.job import Job
from domain.job.picture import PICTURES_MAX
from domain.job.picture_place import place_typed
from domain.value import Value, is_hollow


def _add_picture(job: Job, command: AddPicture) -> Job | Declined:
    given = command.picture
    if not place_typed(job, given.about):
        return Declined(says="A picture belongs to an observation, an inspection item or a board of this job")
    if is_hollow(given.caption):
        return Declined(says="A picture needs a caption: what it shows, for whoever cannot see it")
    if len(job.pictures) >= PICTURES_MAX:
        return Declined(
            says=f"A record holds {PICTURES_MAX} pictures; take one out, or attach the others to the report"
        )
    if any(each.image.sha256 == given.image.sha256 and each.about == given.about for each in job.pictures):
        return Declined(says="That picture is there already")
    kept = given.model_copy(update={"id": f"p{job.next_id}"})
    return job.model_copy(update={"pictures": (*job.pictures, kept), "next_id": job.next_id + 1})


def _remove_picture(job: Job, command: RemovePicture) -> Job | Declined:
    kept = tuple(each for each in job.pictures if each.id != command.picture)
    if len(kept) == len(job.pictures):
        return Declined(says="That picture is no longer there")
    return job.model_copy(update={"pictures": kept})


PICTURING: dict[type[Value], Callable[[Job, Any], Job | Declined]] = {
    AddPicture: _add_picture,
    RemovePicture: _remove_picture,
}
"""The commands on pictures, and what each does."""
