"""The page of details on the screen, for tests that press keys."""

from pathlib import Path

from domain.job.job import Job
from domain.place import Place
from tests.tui.screens.job_at import at_step
from tui.screens.details import DetailsScreen


def at(section: str, box: str) -> Place:
    return Place(section=section, box=box)


def page(job: Job, home: Path, place: Place | None = None):
    return at_step(DetailsScreen, job, home, place=place)
