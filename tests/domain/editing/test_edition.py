"""The edition a job is worked to, changed by a person."""

from domain.editing.commands import Declined, Explain, SetEdition
from domain.editing.reducer import apply
from domain.editing.undo import Edit, UndoStep, kept, step_back, step_forward
from domain.edition import Edition
from domain.forms.form_set import FormSet
from domain.gate.assessment import assess, explanation_of
from domain.job.job import Job, canonical
from tests.builders import INSPECTOR, ON, done, enter, fresh

EARLIER = SetEdition(edition=Edition.EARLIER, named="BS 7671:2008+A3:2015")


def explained(job: Job) -> Job:
    asked = [each for each in assess(job).findings if each.check == "edition"]
    (finding,) = asked
    given = Explain(
        check=finding.check, place=finding.place, measured=finding.measured, reason="Agreed", by=INSPECTOR, on=ON
    )
    return done(job, given)


def test_an_earlier_edition_is_named_or_not_taken() -> None:
    job = fresh(FormSet.EIC)
    assert isinstance(apply(job, SetEdition(edition=Edition.EARLIER, named=" N/A ")), Declined)
    named = done(job, EARLIER)
    assert (named.edition_in_full, named.amended_to) == ("BS 7671:2008+A3:2015", "BS 7671:2008+A3:2015")
    again = done(named, SetEdition(edition=Edition.A4, named="typed before"))
    assert (again.edition_in_full, again.edition_named) == (Edition.A4, "")


def test_a_document_that_names_an_earlier_edition_without_saying_which_has_a_gap() -> None:
    job = fresh(FormSet.EIC).model_copy(update={"edition": Edition.EARLIER})
    assert any("not which one" in gap.says for gap in assess(job).gaps)
    assert not any("not which one" in gap.says for gap in assess(done(job, EARLIER)).gaps)


def test_a_reason_to_keep_to_a_withdrawn_edition_is_none_for_another() -> None:
    report = done(fresh(FormSet.EICR), enter("report", "inspected_on", "20/10/2026"), SetEdition(edition=Edition.A2))
    kept = explained(report)
    (finding,) = [each for each in assess(kept).findings if each.check == "edition"]
    assert explanation_of(kept, finding)
    assert explained(done(kept, SetEdition(edition=Edition.A2))) == kept
    assert done(kept, EARLIER).explanations == ()


def test_a_job_that_names_no_earlier_edition_has_the_bytes_it_always_had() -> None:
    assert b"edition_named" not in canonical(fresh(FormSet.EIC))
    assert b"edition_named" in canonical(done(fresh(FormSet.EIC), EARLIER))


def test_what_a_document_leaves_out_while_empty_is_taken_back_and_done_again() -> None:
    job = fresh(FormSet.EICR)
    for command in (EARLIER, enter("report", "fi_alone", "satisfactory")):
        after = done(job, command)
        edit = Edit(version=1, what="Typed", changes=kept(job, after))
        back = step_back(after, [edit])
        assert isinstance(back, UndoStep)
        assert back.job == job
        undone = Edit(version=2, what="Undone", undoes=1, changes=kept(after, job))
        again = step_forward(job, [edit, undone])
        assert isinstance(again, UndoStep)
        assert again.job == after
