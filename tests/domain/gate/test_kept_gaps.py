"""The gaps of parts that an edit left alone are kept from the job before: they must be those of the job as it is now."""

from domain.editing.commands import Choose
from domain.forms.choice.chosen import ChosenPapers
from domain.forms.form_set import FormSet
from domain.gate.gaps import gaps_of
from domain.job.job import Job
from tests.builders import complete_report, done, entered


def anew(job: Job) -> Job:
    """The same job of parts that nothing was kept of."""
    return Job.model_validate_json(job.model_dump_json())


def test_other_papers_chosen_for_the_same_boxes_have_their_own_gaps() -> None:
    job = entered(complete_report(sign=False), {"zs": " "}, board="b1", circuit="c2")
    for form_set in (FormSet.EICR, FormSet.EIC, FormSet.EICR):
        job = done(job, Choose(chosen=ChosenPapers(form_set=form_set)))
        assert gaps_of(job) == gaps_of(anew(job)) != ()


def test_a_box_emptied_is_a_gap_at_once_and_filled_again_is_none() -> None:
    job = complete_report(sign=False)
    assert gaps_of(job) == ()
    empty = entered(job, {"zs": " "}, board="b1", circuit="c3")
    assert [each.place.circuit for each in gaps_of(empty)] == ["c3"]
    assert gaps_of(job) == ()
