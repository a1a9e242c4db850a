"""Boards of another job taken into one: whatever the command says, the job stays one that can be read, and undo brings it back."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.editing.board_commands import TakeBoards
from domain.editing.commands import AddBoard, AddItem, Declined, Enter, LayAside, Observe, SetOutcome
from domain.editing.inspecting import in_agreement
from domain.editing.reducer import apply
from domain.editing.taking_boards import boards_of, instruments_left
from domain.editing.undo import Edit, kept, step_back
from domain.inspection.item_outcome import InspectionOutcome
from domain.inspection.observation import Code, Observation
from domain.job.board import Board
from domain.job.circuit import Circuit
from domain.job.exchange import job_from_json, job_to_json
from domain.job.job import ID_MAX, IssueStamp, Job
from domain.job.picture_place import place_typed
from domain.place import Place
from tests.builders import AT, complete_certificate, complete_report, done, enter
from tests.camera import picture
from tests.examples import examples
from tests.random_commands import boards_taken, commands_for

MARK = Place(section="boards", board="b9", circuit="c9", box="zs")
BOARD = Board(id="b9", designation="DB9", location="Loft", circuits=(Circuit(id="c9", number="1", zs="0.49"),))


def taken(job: Job, **more) -> Job | Declined:
    return apply(job, TakeBoards(**({"tested_in": "MR-0001", "boards": (BOARD,)} | more)))


def held(job: Job | Declined) -> Job:
    assert isinstance(job, Job)
    return job


def cell(box: str, text: str, board: str) -> Enter:
    return Enter(place=Place(section="boards", board=board, box=box), text=text)


def other_visit(*codes: Code) -> Job:
    """The same visit by somebody else, at another board."""
    job = complete_report(*codes, sign=False)
    return done(job, cell("designation", "DB2", "b1")).model_copy(update={"number": "MR-0001"})


@given(data=st.data())
@examples(0.5)
def test_whatever_is_taken_the_job_comes_back_as_it_went_out_and_undo_brings_back_the_very_job(data) -> None:
    job = data.draw(st.sampled_from([complete_report(Code.C2), complete_certificate()]))
    for command in data.draw(st.lists(commands_for(job), max_size=2)):
        job = job if isinstance(after := apply(job, command), Declined) else after
    command = data.draw(boards_taken(job))
    after = apply(job, command)
    if isinstance(after, Declined):
        assert after.says
        return
    assert job_from_json(job_to_json(after)) == after
    assert in_agreement(after) or not in_agreement(job)
    back = step_back(after, [Edit(1, "Taken", kept(job, after))])
    assert not isinstance(back, Declined)
    # An id is never given twice, and a signature covers how far they were given.
    assert back.job.model_copy(update={"next_id": job.next_id, "signatures": job.signatures}) == job


@pytest.mark.parametrize(
    "given",
    [
        {"boards": (BOARD, BOARD)},
        {"boards": (BOARD, BOARD.model_copy(update={"id": "c9", "circuits": ()}))},
        {"boards": (BOARD.model_copy(update={"circuits": BOARD.circuits * 2}),)},
        {"boards": (BOARD.model_copy(update={"id": ""}),)},
        {"observations": (Observation(id="b9", finding="Lid missing", code=Code.C3),)},
    ],
    ids=["a board twice", "a circuit that is a board", "a circuit twice", "no id", "an observation that is a board"],
)
def test_parts_that_cannot_be_told_apart_are_not_taken(given) -> None:
    after = taken(complete_report(), **given)
    assert isinstance(after, Declined)
    assert after.says.startswith("The parts of MR-0001 cannot be told apart: ")


def test_places_of_what_is_not_taken_are_left_out_and_the_words_stay() -> None:
    gone = Place(section="boards", board="b7", box="zs")
    seen = Observation(id="o9", finding="Lid missing", code=Code.C3, about=gone, answers=(gone, MARK), where="Loft")
    shown = (picture(gone, id="p8"), picture(Place(observation="o9"), "Lid", id="p9"))
    job = held(taken(complete_report(), observations=(seen,), pictures=shown, unconfirmed=(gone, MARK)))
    (observed,) = job.observations
    assert (observed.finding, observed.where, observed.about) == ("Lid missing", "Loft", None)
    (circuit,) = job.boards[-1].circuits
    at = MARK.model_copy(update={"board": job.boards[-1].id, "circuit": circuit.id})
    assert observed.answers == (at,)
    assert job.unconfirmed == (at,)
    assert [place_typed(job, each.about) for each in job.pictures] == ["observation 1"]


def test_inspection_items_follow_what_was_found_at_the_other_board() -> None:
    job = complete_report(sign=False)
    item = job.items[3].number
    job = done(job, SetOutcome(item=item, mark=InspectionOutcome.PASS))
    found = done(other_visit(), Observe(finding="Lid missing", code=Code.C2, items=(item,)))
    after = held(apply(job, boards_of(job, found)))
    assert in_agreement(after)
    assert next(each.mark for each in after.inspection if each.item == item) is InspectionOutcome.C2


def test_an_item_that_one_of_them_added_is_not_taken_for_another_of_the_same_number() -> None:
    job = done(complete_report(sign=False), AddItem(title="Lift machine room"))
    other = done(other_visit(), AddItem(title="Stage lighting"))
    own = other.own_items[0].item
    assert own == job.own_items[0].item
    found = done(other, Observe(finding="Loose dimmer", code=Code.C2, items=(own,)))
    after = held(apply(job, boards_of(job, found)))
    assert after.observations[-1].items == ()
    assert next((each for each in after.inspection if each.item == own), None) is None


def test_a_board_of_which_only_a_finding_speaks_stays_and_is_taken() -> None:
    job, other = (done(each, AddBoard()) for each in (complete_report(sign=False), other_visit()))
    about = [Place(section="boards", board=each.boards[-1].id) for each in (job, other)]
    job = done(job, Observe(finding="Locked cupboard", code=Code.FI, about=about[0]))
    other = done(other, cell("location", "Loft", other.boards[-1].id))
    other = done(other, Observe(finding="No lid", code=Code.C2, about=about[1]))
    says = apply(job, boards_of(job, other))
    assert isinstance(says, Declined)
    assert says.says == "A board here is not named yet, nor is one of MR-0001; name them first"
    job = done(job, cell("designation", "DB8", about[0].board))
    after = held(apply(job, boards_of(job, other)))
    assert len(after.boards) == 4
    assert all(after.board(each.about.board) for each in after.observations if each.about)


def test_one_circuit_takes_no_boards_and_a_job_whose_ids_are_used_up_no_more_parts() -> None:
    job = complete_report().model_copy(update={"next_id": ID_MAX})
    for command in (AddBoard(), TakeBoards(tested_in="MR-0001", boards=(BOARD,))):
        says = apply(job, command)
        assert isinstance(says, Declined)
        assert "holds no more of these" in says.says
    assert isinstance(apply(done(complete_report(), LayAside()), TakeBoards(tested_in="x", boards=(BOARD,))), Declined)


def test_which_of_the_two_has_been_issued_is_said() -> None:
    stamp, job, other = IssueStamp(at=AT, by="Hetty"), complete_report(), other_visit()
    job = job.model_copy(update={"number": "A-0001"})
    for first, second, says in (
        (job.model_copy(update={"issued": stamp}), other, "A-0001 has been issued, and takes no boards; "),
        (job, other.model_copy(update={"issued": stamp}), "MR-0001 has been issued, and its paper stands; "),
    ):
        refused = boards_of(first, second)
        assert isinstance(refused, Declined)
        assert refused.says.startswith(says)


def test_instruments_that_the_job_does_not_name_are_told() -> None:
    job, other = complete_report(), other_visit()
    assert instruments_left(job, other) == ()
    other = done(
        other,
        enter("instruments", "multifunction", "MFT 22-417"),
        enter("instruments", "multifunction_due", "01/02/2027"),
    )
    assert instruments_left(job, other) == ("multifunction tester MFT 22-417 (calibration due 01/02/2027)",)
    both = f"{job.instruments.multifunction} and MFT 22-417"
    assert instruments_left(done(job, enter("instruments", "multifunction", both)), other) == ()
