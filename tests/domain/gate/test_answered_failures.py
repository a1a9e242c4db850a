"""Whatever is done to a report, none leaves satisfactory over a failure that nobody answered for."""

from hypothesis import given
from hypothesis import strategies as st

from domain.checks import findings_of
from domain.editing.commands import AnswerFailures, Command, Declined, Enter, Observe, Withdraw
from domain.editing.reducer import apply
from domain.gate.answered import answering, failures_in, offered
from domain.gate.assessment import Pack, assess, issue
from domain.gate.outcome import Outcome
from domain.inspection.observation import Code, Observation
from domain.job.finding import Finding
from domain.job.job import Job
from domain.place import Place
from tests.builders import AT, INSPECTOR, complete_report, done, entered, signed
from tests.examples import examples
from tests.random_commands import commands_for

IR, LIVE, ZS = (Place(section="boards", board="b1", circuit="c2", box=box) for box in ("ir_earth", "ir_live", "zs"))
GAS, POLARITY = Place(section="earthing", box="bonded_gas"), Place(section="supply", box="polarity")
RADIAL = Place(section="boards", board="b1", circuit="c3", box="ir_earth")
BAD = {IR: "0.2", LIVE: "0.2", GAS: "N", POLARITY: "N", RADIAL: "0.3"}
TEXTS = (
    "Kitchen sockets, circuit 1, and the gas pipe",
    "x",
    "",
    "Insulation of circuit 2 low",
    "Old wiring, as agreed",
)


def failing_edits(job: Job) -> st.SearchStrategy[Command]:
    """Edits that make a report fail, answer it, or seem to."""
    places = st.sampled_from(list(BAD))
    written = st.sampled_from(["", *(each.id for each in job.observations)])
    return st.one_of(
        places.map(lambda place: Enter(place=place, text=BAD[place])),
        st.builds(
            Observe,
            observation=written,
            finding=st.sampled_from(TEXTS[:1] + TEXTS[3:]),
            code=st.sampled_from(list(Code)),
            where=st.sampled_from(TEXTS),
            about=st.none() | places,
            reason=st.sampled_from(TEXTS),
            answers=st.lists(places, max_size=2).map(tuple),
        ),
        st.builds(AnswerFailures, observation=written, answers=st.lists(places, max_size=3).map(tuple)),
        st.builds(Withdraw, observation=written),
        commands_for(job),
    )


def is_answered_for(finding: Finding, job: Job) -> bool:
    """Said a second time, apart from the program: a C1 or C2 names the box, or a lesser code does with a reason."""
    return any(
        each.code in {Code.C1, Code.C2} or len(each.reason.strip()) > 1
        for each in job.observations
        if finding.place in each.answers or (finding.place.item and finding.place.item in each.items)
    )


def assert_every_failure_is_answered_for(pack: Pack) -> None:
    failing = failures_in(findings_of(pack.job))
    assert all(is_answered_for(each, pack.job) for each in failing)


@given(data=st.data())
@examples(0.2)
def test_no_report_leaves_satisfactory_while_a_failure_has_no_answer(data):
    job = complete_report()
    for _ in range(data.draw(st.integers(1, 8))):
        after = apply(job, data.draw(failing_edits(job)))
        job = job if isinstance(after, Declined) else after
        answer = issue(signed(job), by=INSPECTOR, at=AT, people=()) if job.profile.states_a_condition else None
        if isinstance(answer, Pack):
            assert_every_failure_is_answered_for(answer)


def test_a_report_with_four_faults_and_one_c3_about_something_else_is_not_issued():
    job = entered(complete_report(sign=False), {"ir_earth": "0.2", "ir_live": "0.2"}, board="b1", circuit="c2")
    job = done(entered(job, {"polarity": "N"}, section="supply"), Enter(place=GAS, text="N"))
    job = done(job, Observe(finding="Kitchen sockets: a faceplate is scratched", code=Code.C3, where="Kitchen sockets"))
    assert not isinstance(issue(signed(job), by=INSPECTOR, at=AT, people=()), Pack)
    (observation,) = job.observations
    ticked = done(job, AnswerFailures(observation=observation.id, answers=(IR, LIVE, GAS, POLARITY)))
    assert not isinstance(issue(signed(ticked), by=INSPECTOR, at=AT, people=()), Pack)


def test_the_failures_offered_to_an_observation_begin_with_what_it_was_raised_from_and_leave_out_what_others_answer():
    job = complete_report(sign=False)
    for place in (GAS, IR, LIVE, RADIAL):
        job = done(job, Enter(place=place, text=BAD[place]))
    job = done(
        job,
        Observe(finding="Gas pipe", code=Code.C2, answers=(GAS,)),
        Observe(finding="Insulation low", code=Code.C2, about=LIVE),
    )
    assert [each.place for each in offered(job, job.observations[1], findings_of(job)) if each.place.box] == [
        LIVE,
        IR,
        RADIAL,
    ]


def test_an_inspection_item_that_fails_is_answered_by_the_observation_of_that_item():
    item = Place(section="inspection", item="4.3")
    job = done(complete_report(sign=False), Observe(finding="Blank missing", code=Code.C2, items=("4.3",)))
    assert [number for number, _ in answering(job, item)] == [1]
    assert answering(job, Place(section="inspection", item="4.4")) == ()


def test_a_document_of_the_old_layout_is_read_with_nothing_tied():
    old = {"id": "o4", "finding": "Insulation of Kitchen sockets low", "code": "C2", "about": IR.model_dump()}
    observation = Observation.model_validate(old)
    assert (observation.answers, observation.lowered_from, observation.action) == ((), None, None)
    job = done(complete_report(sign=False), Enter(place=IR, text="0.2")).model_copy(
        update={"observations": (observation,)}
    )
    (reason,) = [each for each in assess(job).reasons if each.id == "unobserved" and each.place == IR]
    assert "Observation 1 was raised here, but says of no box that it answers it" in reason.says
    assert assess(job).outcome is Outcome.UNSATISFACTORY
