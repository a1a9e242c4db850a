"""Where a job was left, as the log keeps it for whoever opens it again."""

import json

from pydantic import ValidationError

from domain.place import Place
from tui.job_page import JobPage


def note_of(step: JobPage, place: Place | None) -> str:
    """The note of a step and of the place the cursor is on there."""
    return json.dumps({"step": step.value, "place": place.model_dump(exclude_defaults=True) if place else {}})


def read_note(note: str) -> tuple[JobPage, Place | None]:
    """The step and place a note tells of; the first step when it cannot be read."""
    try:
        kept = json.loads(note)
        return JobPage(kept["step"]), Place.model_validate(kept["place"]) if kept["place"] else None
    except (ValueError, KeyError, TypeError, ValidationError):
        return JobPage.DETAILS, None
