"""Inspection items and observations can never disagree, whatever is done in whatever order."""

import pytest
from hypothesis import HealthCheck, given
from hypothesis import strategies as st

from domain.editing.commands import AddItem, Command, Declined, Observe, RemoveItem, SetOutcome, Withdraw
from domain.editing.inspecting import code_of, in_agreement
from domain.editing.reducer import apply
from domain.editing.undo import Edit, kept, step_back, step_forward
from domain.forms.form_set import FormSet
from domain.gate.assessment import Refusal, issue
from domain.inspection.item_outcome import InspectionOutcome
from domain.inspection.observation import Code
from domain.job.job import Job
from tests.builders import AT, INSPECTOR, complete_report, done, fresh, signed
from tests.examples import examples

ITEMS = ("4.3", "4.4", "A1")


def _marks(job: Job) -> dict[str, InspectionOutcome]:
    return {outcome.item: outcome.mark for outcome in job.inspection}


def _declined(job: Job, command: Command) -> str:
    after = apply(job, command)
    assert isinstance(after, Declined)
    return after.says


def _inspections(job: Job) -> st.SearchStrategy[Command]:
    items = st.sampled_from(ITEMS)
    observations = st.sampled_from(["", *(each.id for each in job.observations)])
    return st.one_of(
        st.builds(
            SetOutcome,
            item=items,
            mark=st.none() | st.sampled_from(list(InspectionOutcome)),
            note=st.sampled_from(["", "x"]),
        ),
        st.builds(
            Observe,
            finding=st.sampled_from(["Cover loose", ""]),
            code=st.sampled_from(list(Code)),
            items=st.lists(items, max_size=3).map(tuple),
            observation=observations,
        ),
        st.builds(Withdraw, observation=observations),
        st.builds(AddItem, title=st.just("Stage lighting")),
        st.builds(RemoveItem, item=items),
    )


@examples(0.5, suppress_health_check=[HealthCheck.too_slow])  # each step is drawn after the one before is done
@given(st.data())
def test_item_and_observation_agree_after_any_commands_undone_and_redone(data: st.DataObject):
    job, edits = fresh(FormSet.EICR), list[Edit]()
    for version in range(1, 13):
        step = data.draw(st.sampled_from(["do", "do", "do", "undo", "redo"]))
        if step == "do":
            after = apply(job, data.draw(_inspections(job)))
            if isinstance(after, Job):
                edits.append(Edit(version, "an edit", kept(job, after)))
        else:
            stepped = step_back(job, edits) if step == "undo" else step_forward(job, edits)
            after = stepped if isinstance(stepped, Declined) else stepped.job
            if not isinstance(stepped, Declined):
                way = {"undoes": stepped.version} if step == "undo" else {"redoes": stepped.version}
                edits.append(Edit(version, "a step", "", **way))
        job = job if isinstance(after, Declined) else after
        assert in_agreement(job)
        for item in job.items:
            code = code_of(job, item.number)
            assert code is None or _marks(job)[item.number].code is code


def test_an_item_shows_the_gravest_of_its_observations_and_follows_them():
    job = done(
        fresh(FormSet.EICR),
        SetOutcome(item="4.3", mark=InspectionOutcome.PASS, note="metal"),
        Observe(finding="Blank missing", code=Code.C3, items=("4.3", "4.4")),
        Observe(finding="Live part in reach", code=Code.C1, items=("4.3",)),
    )
    assert _marks(job) == {"4.3": InspectionOutcome.C1, "4.4": InspectionOutcome.C3}
    assert job.inspection[-1].note == "metal"
    grave = job.observations[1].id
    assert _marks(done(job, Withdraw(observation=grave)))["4.3"] is InspectionOutcome.C3
    eased = done(job, Observe(observation=grave, finding="Cover loose", code=Code.FI, items=("4.3",)))
    assert _marks(eased)["4.3"] is InspectionOutcome.FI


def test_an_item_that_no_observation_codes_any_more_is_open_again():
    job = done(fresh(FormSet.EICR), Observe(finding="Blank missing", code=Code.C2, items=("4.3",)))
    assert _marks(done(job, Withdraw(observation=job.observations[0].id))) == {}


@pytest.mark.parametrize("mark", [InspectionOutcome.PASS, InspectionOutcome.C3, InspectionOutcome.NOT_APPLICABLE, None])
def test_what_an_observation_codes_cannot_be_marked_otherwise(mark: InspectionOutcome | None):
    job = done(fresh(FormSet.EICR), Observe(finding="Blank missing", code=Code.C2, items=("4.3",)))
    assert "Observation 1 makes 4.3 a C2" in _declined(job, SetOutcome(item="4.3", mark=mark))


def test_a_coded_item_without_an_observation_keeps_the_report_back():
    job = done(complete_report(sign=False), SetOutcome(item="4.3", mark=InspectionOutcome.C2))
    refusal = issue(signed(job).model_copy(update={"number": "T-1"}), by=INSPECTOR, at=AT, people=())
    assert isinstance(refusal, Refusal)
    assert any("no observation carries that code" in reason.says for reason in refusal.reasons)


def test_an_observation_that_names_an_item_nobody_knows_keeps_the_report_back():
    job = done(complete_report(sign=False), Observe(finding="Rust", code=Code.C3, items=("44",)))
    refusal = issue(signed(job).model_copy(update={"number": "T-1"}), by=INSPECTOR, at=AT, people=())
    assert isinstance(refusal, Refusal)
    assert [reason.says for reason in refusal.reasons] == ["observation 1: names item 44, which is not on the list"]


@pytest.mark.parametrize("form_set", [FormSet.EIC, FormSet.EICR])
def test_an_item_is_added_for_premises_beyond_the_list_and_taken_away_with_its_mark(form_set: FormSet):
    job = done(fresh(form_set), AddItem(title="Stage lighting", regulations="Part 7"))
    own = job.items[-1]
    assert (own.title, own.section, own.regulations) == ("Stage lighting", "Added for these premises", "Part 7")
    job = done(job, SetOutcome(item=own.number, mark=InspectionOutcome.PASS))
    assert done(job, RemoveItem(item=own.number)).inspection == ()
    more = done(job, AddItem(title="Sauna"))
    assert [item.number for item in more.items[-2:]] == ["A1", "A2"]


def test_only_added_items_that_no_observation_names_are_removed():
    job = done(fresh(FormSet.EICR), AddItem(title="Stage lighting"))
    own = job.items[-1].number
    job = done(job, Observe(finding="Lamp holder loose", code=Code.C3, items=(own,)))
    assert "take it from there first" in _declined(job, RemoveItem(item=own))
    assert "Only items added" in _declined(job, RemoveItem(item="4.3"))
    assert "Minor works has no inspection" in _declined(fresh(FormSet.MEIWC), AddItem(title="Stage lighting"))
    assert "a word on what is looked at" in _declined(job, AddItem(title=" "))


def test_there_is_no_outcome_for_an_item_nobody_knows():
    assert "There is no inspection item 99" in _declined(
        fresh(FormSet.EIC), SetOutcome(item="99", mark=InspectionOutcome.PASS)
    )
