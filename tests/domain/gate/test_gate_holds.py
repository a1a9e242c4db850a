"""Whatever is done to a job, nothing is issued that should have been held back."""

from hypothesis import given
from hypothesis import strategies as st

from domain.editing.commands import ClearSnag, Declined, RaiseSnag
from domain.editing.reducer import apply
from domain.gate.assessment import Pack, Refusal, assess, issue
from domain.gate.outcome import Outcome
from domain.inspection.observation import Code
from domain.job.job import Job
from tests.builders import (
    AT,
    INSPECTOR,
    ON,
    complete_certificate,
    complete_minor_works,
    complete_report,
    done,
    signed,
    snagged,
)
from tests.examples import examples
from tests.random_commands import commands_for

STARTS = [complete_minor_works(), complete_certificate(), complete_report(), complete_report(Code.C2)]


def assert_fit_to_be_issued(pack: Pack) -> None:
    job = pack.job
    assert assess(job.model_copy(update={"issued": None})).reasons == ()
    if not job.form_set.profile.states_a_condition:
        assert job.open_snags == ()
        assert pack.outcome is Outcome.COMPLIES


@given(data=st.data(), job=st.sampled_from(STARTS))
@examples(0.3)
def test_no_certificate_is_ever_issued_with_an_open_snag(data, job):
    for _ in range(data.draw(st.integers(0, 12))):
        after = apply(job, data.draw(commands_for(job)))
        job = job if isinstance(after, Declined) else after
        if data.draw(st.booleans()):
            job = signed(job)
        answer = issue(job, by=INSPECTOR, at=AT, people=())
        if isinstance(answer, Pack):
            assert_fit_to_be_issued(answer)
        else:
            assert answer.reasons


@given(data=st.data(), job=st.sampled_from(STARTS))
@examples(0.3)
def test_what_was_signed_is_what_is_issued(data, job):
    after = apply(job, data.draw(commands_for(job)))
    if isinstance(after, Job) and after.model_copy(update={"signatures": ()}) != job.model_copy(
        update={"signatures": ()}
    ):
        assert after.signatures == ()
        assert isinstance(issue(after, by=INSPECTOR, at=AT, people=()), Refusal)


def test_a_snag_raised_and_cleared_lets_the_certificate_go_once_it_is_signed_again():
    job = snagged(complete_minor_works())
    assert isinstance(issue(signed(job), by=INSPECTOR, at=AT, people=()), Refusal)
    job = done(job, ClearSnag(snag=job.snags[0].id, by=INSPECTOR, on=ON, how="Fitted"))
    assert isinstance(issue(job, by=INSPECTOR, at=AT, people=()), Refusal)
    assert isinstance(issue(signed(job), by=INSPECTOR, at=AT, people=()), Pack)


def test_an_issued_job_takes_no_command_at_all():
    pack = issue(complete_minor_works(), by=INSPECTOR, at=AT, people=())
    assert isinstance(pack, Pack)
    assert isinstance(apply(pack.job, RaiseSnag(what="Late", by=INSPECTOR, on=ON)), Declined)
    assert isinstance(issue(pack.job, by=INSPECTOR, at=AT, people=()), Refusal)
