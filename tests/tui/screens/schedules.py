"""A schedule of circuit details on the screen, for tests that press keys."""

from collections.abc import Sequence
from pathlib import Path

from domain.editing.commands import AddCircuit
from domain.forms.form_set import FormSet
from domain.job.box import boxes_of
from domain.job.circuit import DETAIL_BOXES, Circuit
from domain.job.job import Job
from domain.place import Place
from tests.builders import complete_certificate, done, entered
from tests.tui.screens.job_at import AtStep, at_step
from tui.job_page import JobPage

DETAILS = tuple(name for name in DETAIL_BOXES if boxes_of(Circuit)[name].is_asked(FormSet.EIC))


def schedule(job: Job, home: Path, place: Place | None = None, size: tuple[int, int] = (80, 24)):
    return at_step(JobPage.CIRCUITS, job, home, place=place, size=size)


def certificate(more: int = 0) -> Job:
    """A complete certificate, and so many circuits more, numbered from 3."""
    job = complete_certificate(sign=False)
    for number in range(3, 3 + more):
        last = job.boards[0].circuits[-1].id
        job = done(job, AddCircuit(board="b1", after=last, like=last))
        job = entered(job, {"number": str(number)}, board="b1", circuit=job.boards[0].circuits[-1].id)
    return job


def numbers(at: AtStep) -> Sequence[str]:
    return [circuit.number for circuit in at.job.boards[0].circuits]
