"""The visit sheet is one page, whatever the job holds."""

from datetime import date

import pytest

from domain.coach.danger import dangers
from domain.coach.visit_sheet import Visit
from domain.editing.commands import AddBoard, AddCircuit, Observe
from domain.forms.form_set import FormSet
from domain.inspection.observation import Code
from domain.job.job import Job
from storage.pdf import bind_visit
from tests.builders import complete_report, done, enter, entered, fresh
from tests.storage.paper.pages import Paper

WORDS = "Words of some length, over and over. " * 4


def with_every_danger() -> Job:
    """A report in which all that the table knows can hurt."""
    job = done(
        complete_report(sign=False),
        enter("premises", "occupier", "Vacant"),
        enter("supply", "other_sources", "Solar PV, and a battery"),
        Observe(finding="Cut-out cracked", code=Code.C2),
    )
    server = {"description": "Server cabinet", "device_standard": "BS 3036"}
    return entered(job, server, board="b1", circuit=job.boards[0].circuits[1].id)


def overfull() -> Job:
    """The same with ten boards more, thirty freezers and long texts everywhere."""
    job = with_every_danger()
    for _ in range(10):
        job = done(job, AddBoard())
        job = entered(job, {"designation": "W" * 60, "location": WORDS}, board=job.boards[-1].id)
    for at in range(30):
        job = done(job, AddCircuit(board="b1"))
        freezer = {"number": str(at + 3), "description": f"Freezer, {WORDS}"}
        job = entered(job, freezer, board="b1", circuit=job.boards[0].circuits[-1].id)
    for box in ("extent", "reason", "agreed_limitations", "agreed_with"):
        job = done(job, enter("report", box, WORDS))
    return job


@pytest.mark.parametrize("job", [fresh(FormSet.MEIWC), with_every_danger(), overfull()], ids=["new", "dangers", "full"])
def test_it_is_one_page_and_leaves_no_danger_out(job: Job) -> None:
    paper = Paper(bind_visit(Visit(job=job, on=date(2026, 11, 30))))
    assert paper.bound.pages == len(paper.pages) == 1
    assert "licensed practice come first" in paper.said
    if job.observations:
        for danger in dangers():
            assert danger.says in paper.said, danger.id
