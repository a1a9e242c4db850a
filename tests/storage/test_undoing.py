"""Undo and redo, and the trail of them, in every job log."""

from datetime import timedelta

import pytest
from hypothesis import HealthCheck, given
from hypothesis import strategies as st

from domain.editing.commands import (
    AddCircuit,
    AddPicture,
    AnswerFailures,
    Declined,
    Enter,
    LayAside,
    MoveCircuit,
    Observe,
    RecordAction,
    RemoveBoard,
    RemoveCircuit,
    SetOutcome,
    Sign,
)
from domain.forms.form_set import FormSet
from domain.inspection.item_outcome import InspectionOutcome
from domain.inspection.observation import Code, ImmediateAction
from domain.job.signature import roles_for
from domain.place import Place
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, INSPECTOR, complete_certificate, complete_minor_works, enter, fresh
from tests.camera import picture
from tests.examples import examples
from tests.random_commands import commands_for
from tests.storage.issuing import bind
from tests.storage.memory_log import MemoryJobLog

ME, OTHER = "tamsin", "robin"
ZS = Place(section="boards", board="b1", circuit="c2", box="zs")
OBSERVED = Place(observation="o3")
LEFT_OUT_WHILE_EMPTY = (
    AddPicture(picture=picture(OBSERVED)),
    AnswerFailures(observation="o3", answers=(Place(section="earthing", box="conductor"),)),
    RecordAction(
        observation="o3", action=ImmediateAction(made_safe=True, how="Isolated", told="The tenant", told_at="11:40")
    ),
    LayAside(),
    enter("report", "remedy_within", "7"),
    enter("report", "fi_alone", "unsatisfactory"),
    enter("report", "fi_alone_because", "N/A"),
)


@pytest.fixture
def number(log):
    return log.create(complete_certificate(sign=False), who=ME, at=AT).number


def edit(log, number, command, who=ME):
    after = log.edit(number, command, who=who, at=AT)
    assert not isinstance(after, Declined), after
    return after


def undo(log, number, who=ME):
    return log.undo(number, who=who, at=AT)


def redo(log, number, who=ME):
    return log.redo(number, who=who, at=AT)


def test_many_steps_back_and_forward_again_give_each_state_once_more(log, number):
    commands = (
        Enter(place=ZS, text="0.52"),
        AddCircuit(board="b1", after="c2", like="c2"),
        MoveCircuit(board="b1", circuit="c2", to=2),
        SetOutcome(item="1", mark=InspectionOutcome.NOT_APPLICABLE),
        RemoveCircuit(board="b1", circuit="c2"),
        RemoveBoard(board="b1"),
    )
    states = [log.load(number), *(edit(log, number, command) for command in commands)]

    def content(job):
        return job.model_copy(update={"next_id": 0})

    for before in reversed(states[:-1]):
        assert content(undo(log, number).job) == content(before) == content(log.load(number))
    assert isinstance(undo(log, number), Declined)
    for after in states[1:]:
        assert content(redo(log, number).job) == content(after)
    assert isinstance(redo(log, number), Declined)


def test_each_step_is_said_and_stands_in_the_trail(log, number):
    edit(log, number, Enter(place=ZS, text="0.52"))
    back = undo(log, number)
    said = "Undone: DB1, circuit 1 Kitchen sockets, Measured Zs: 0.52 (was 0.49)"
    assert (back.says, back.place) == (said, ZS)
    assert redo(log, number).says == said.replace("Undone", "Done again")
    assert [line.what for line in log.trail(number)[-2:]] == [said, said.replace("Undone", "Done again")]
    assert [line.version for line in log.trail(number)] == [1, 2, 3, 4]
    assert [line.place for line in log.trail(number, after=1)] == [ZS, None, None]


def test_a_new_edit_leaves_nothing_to_redo(log, number):
    edit(log, number, Enter(place=ZS, text="0.52"))
    undo(log, number)
    edit(log, number, Enter(place=ZS, text="0.53"))
    assert isinstance(redo(log, number), Declined)
    assert undo(log, number).job.boards[0].circuits[0].zs.typed == "0.49"


def test_everybody_takes_back_their_own_edits_only(log, number):
    edit(log, number, enter("client", "name", "Mine"))
    edit(log, number, enter("premises", "postcode", "WQ9 9ZZ"), who=OTHER)
    job = undo(log, number).job
    assert (job.client.name, job.premises.postcode) == ("Zoë Fairweather", "WQ9 9ZZ")
    assert isinstance(undo(log, number), Declined)
    assert undo(log, number, who=OTHER).job.premises.postcode == "WQ7 1AB"


def test_what_somebody_else_changed_since_is_passed_over_and_said(log, number):
    edit(log, number, enter("premises", "postcode", "WQ8 8YY"))
    edit(log, number, enter("client", "name", "Mine"))
    edit(log, number, enter("client", "name", "Theirs"), who=OTHER)
    back = undo(log, number)
    assert (back.job.client.name, back.job.premises.postcode) == ("Theirs", "WQ7 1AB")
    assert "(passed over: Client was changed by somebody since)" in back.says
    alone = undo(log, number)
    assert isinstance(alone, Declined)
    assert "changed by somebody since" in alone.says


def test_a_circuit_somebody_typed_into_since_is_not_taken_away_by_undo(log, number):
    added = edit(log, number, AddCircuit(board="b1")).boards[0].circuits[-1]
    place = Place(section="boards", board="b1", circuit=added.id, box="zs")
    edit(log, number, Enter(place=place, text="0.61"), who=OTHER)
    assert isinstance(undo(log, number), Declined)
    assert log.load(number).boards[0].circuits[-1].zs.typed == "0.61"


def test_a_removed_circuit_comes_back_with_its_readings_in_its_row_beside_what_others_added(log, number):
    edit(log, number, RemoveCircuit(board="b1", circuit="c2"))
    edit(log, number, AddCircuit(board="b1"), who=OTHER)
    circuits = undo(log, number).job.boards[0].circuits
    assert (circuits[0].id, circuits[0].zs.typed, len(circuits)) == ("c2", "0.49", 3)


def test_an_id_is_never_given_twice_whatever_is_undone(log, number):
    first = edit(log, number, AddCircuit(board="b1")).boards[0].circuits[-1].id
    undo(log, number)
    assert edit(log, number, AddCircuit(board="b1")).boards[0].circuits[-1].id != first


def test_a_signature_comes_back_only_over_the_very_content_that_was_signed(log):
    number = log.create(complete_minor_works(), who=ME, at=AT).number
    edit(log, number, Enter(place=ZS, text="0.52"))
    assert log.load(number).signatures == ()
    assert len(undo(log, number).job.signatures) == 1
    edit(log, number, Enter(place=ZS, text="0.52"))
    edit(log, number, enter("client", "name", "Theirs"), who=OTHER)
    assert undo(log, number).job.signatures == ()


def test_signing_can_be_undone_like_any_other_step(log):
    number = log.create(complete_minor_works(sign=False), who=ME, at=AT).number
    role = roles_for(FormSet.MEIWC)[0]
    edit(log, number, Sign(role=role, name=INSPECTOR, at=AT))
    assert undo(log, number).job.signatures == ()
    assert len(redo(log, number).job.signatures) == 1


def test_an_issued_job_takes_no_step(log):
    number = log.create(complete_minor_works(), who=ME, at=AT).number
    place = Place(section="boards", board="b1", box="location")
    edit(log, number, Enter(place=place, text="Porch"))
    undo(log, number)
    log.issue(number, by=INSPECTOR, at=AT, bind=bind)
    before = log.load(number), log.trail(number)
    assert "issued" in undo(log, number).says
    assert isinstance(redo(log, number), Declined)
    assert (log.load(number), log.trail(number)) == before


def test_steps_reach_back_past_a_restart(home):
    log = SqliteJobLog.open(home)
    number = log.create(fresh(FormSet.EICR), who=ME, at=AT).number
    edit(log, number, enter("report", "reason", "New tenancy"))
    log.close()
    log = SqliteJobLog.open(home)
    assert undo(log, number).job.report.reason == ""
    log.close()
    log = SqliteJobLog.open(home)
    assert redo(log, number).job.report.reason == "New tenancy"
    log.close()


@examples(0.2, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data(), form_set=st.sampled_from(list(FormSet)))
def test_whatever_one_person_does_goes_back_step_by_step_to_the_beginning(data, form_set):
    log = MemoryJobLog()
    begun = log.create(fresh(form_set), who=ME, at=AT)
    for _ in range(data.draw(st.integers(1, 12))):
        log.edit(begun.number, data.draw(commands_for(log.load(begun.number))), who=ME, at=AT + timedelta(hours=1))
    last = log.load(begun.number)
    steps = 0
    while not isinstance(undo(log, begun.number), Declined):
        steps += 1
    assert log.load(begun.number).model_copy(update={"next_id": begun.next_id}) == begun
    for _ in range(steps):
        assert not isinstance(redo(log, begun.number), Declined)
    assert log.load(begun.number) == last


@pytest.mark.parametrize("command", LEFT_OUT_WHILE_EMPTY, ids=lambda command: type(command).__name__)
def test_what_a_document_leaves_out_while_it_is_empty_goes_back_to_nothing_and_comes_again(log, command):
    seen = Observe(finding="Scorched neutral", code=Code.C1)
    number = log.create(fresh(FormSet.EICR), who=ME, at=AT).number
    before = edit(log, number, seen)
    assert before.observations[0].id == OBSERVED.observation
    after = edit(log, number, command)
    assert undo(log, number).job.model_copy(update={"next_id": before.next_id}) == before
    assert redo(log, number).job == after
