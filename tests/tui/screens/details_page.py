"""The page of details on the screen, for tests that press keys."""

from pathlib import Path

from domain.job.job import Job
from domain.place import Place
from tests.tui.screens.job_at import at_step
from tui.job_page import JobPage


def at(section: str, box: str) -> Place:
    return Place(section=section, box=box)


def page(job: Job, home: Path, place: Place | None = None):
    return at_step(JobPage.DETAILS, job, home, place=place)
