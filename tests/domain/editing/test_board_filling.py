"""A board that comes filled, and a circuit given the details of its kind: put forward, marked, and taken back by one undo."""

import pytest

from domain.editing.audit_text import audit_text
from domain.editing.carrying import details_of
from domain.editing.commands import AddCircuit, Confirm, Declined, Enter
from domain.editing.over_range import meant_by
from domain.editing.reducer import apply
from domain.editing.undo import Edit, UndoStep, kept, step_back
from domain.editing.usual_commands import FillBoard, FillCircuit
from domain.forms.choice.chosen import ChosenPapers
from domain.forms.form_set import FormSet
from domain.gate.gaps import gaps_of
from domain.job.board import Board
from domain.job.job import Job
from domain.job.place_in_words import text_at
from domain.job.start import new_job
from domain.place import Place
from domain.usual.circuit_kinds import kinds_begun
from domain.usual.filled_boards import filled_boards
from tests.builders import ON, complete_certificate, complete_report, done, entered, fresh

_HOUSE = filled_boards()[0]


def at(circuit: str, box: str) -> Place:
    return Place(section="boards", board="b1", circuit=circuit, box=box)


def house(job: Job, board: str = "b1") -> FillBoard:
    return FillBoard(board=board, known_from=_HOUSE.name, usual=_HOUSE.board)


def test_a_board_is_filled_and_every_box_of_it_waits_until_somebody_says_yes() -> None:
    job = done(entered(fresh(FormSet.EIC), {"designation": "CU", "phases": "3"}, board="b1"), house(fresh(FormSet.EIC)))
    (board,) = job.boards
    assert [each.description for each in board.circuits] == [each.description for each in _HOUSE.board.circuits]
    assert (board.designation, board.phases, board.supplied_from) == ("CU", "3", "Origin")
    waiting = {place for place in job.unconfirmed if place.circuit == board.circuits[0].id}
    assert {place.box for place in waiting} >= {
        "number",
        "description",
        "live_csa",
        "rating",
        "rcd_idn",
        "test_voltage",
    }
    assert not any(text_at(job, at(each.id, box)) for each in board.circuits for box in ("points", "length", "zs"))
    held = [gap for gap in gaps_of(job) if gap.kind == "never-confirmed"]
    assert {gap.place.circuit for gap in held} >= {each.id for each in board.circuits}
    assert not done(job, Confirm(places=job.unconfirmed)).unconfirmed


def test_a_filling_is_one_step_back() -> None:
    job = fresh(FormSet.EIC)
    after = done(job, house(job))
    back = step_back(after, [Edit(2, audit_text(job, house(job)), kept(job, after))])
    assert isinstance(back, UndoStep)
    assert back.job.boards == job.boards
    assert back.job.unconfirmed == job.unconfirmed


def test_a_board_with_circuits_is_not_filled_and_without_one_named_another_is_added() -> None:
    job = complete_certificate(sign=False)
    declined = apply(job, house(job))
    assert isinstance(declined, Declined)
    assert "has circuits already" in declined.says
    assert len(done(job, house(job, board="")).boards) == 2
    assert isinstance(apply(fresh(FormSet.MEIWC), house(job)), Declined)
    assert isinstance(apply(job, house(job, board="gone")), Declined)


def test_what_a_filling_brings_of_readings_points_or_places_is_left_out() -> None:
    (board,) = complete_certificate(sign=False).boards
    job = done(fresh(FormSet.EIC), FillBoard(board="b1", known_from="own", usual=board))
    (filled,) = job.boards
    assert filled.circuits[0].description == board.circuits[0].description
    assert not any((filled.circuits[0].zs.typed, filled.circuits[0].points.typed, filled.location, filled.zs.typed))


def test_a_kind_takes_the_place_of_the_details_a_new_circuit_had_from_the_one_above() -> None:
    (cooker, *_) = kinds_begun("cook", None)
    (lights, *_) = kinds_begun("lights", None)
    job = done(fresh(FormSet.EIC), FillCircuit(board="b1", circuit="c2", usual=cooker.details))
    job = done(job, Enter(place=at("c2", "points"), text="1"), AddCircuit(board="b1", like="c2", number="2"))
    new = job.boards[0].circuits[1].id
    job = done(job, FillCircuit(board="b1", circuit=new, usual=lights.details))
    assert [text_at(job, at(new, box)) for box in ("number", "rating", "rcd_rating", "live_csa")] == [
        "2",
        "6",
        "6",
        "1.5",
    ]
    assert {at(new, "rating"), at(new, "rcd_rating"), at(new, "description")} <= set(job.unconfirmed)
    assert text_at(job, at("c2", "rating")) == "32"
    assert isinstance(apply(job, FillCircuit(board="b1", circuit="gone", usual={})), Declined)


@pytest.mark.parametrize(
    ("box", "text", "stands"),
    [
        ("ir_live", ">", ">999"),
        ("ir_earth", ">", ">999"),
        ("ir_live", ">500", ">500"),
        ("zs", ">", ">"),
        ("ir_live", "2", "2"),
    ],
)
def test_a_bare_sign_stands_for_the_end_of_the_range_that_the_tester_showed_before(
    box: str, text: str, stands: str
) -> None:
    job = entered(fresh(FormSet.EIC), {"ir_live": ">999"}, board="b1", circuit="c2")
    job = done(job, AddCircuit(board="b1"))
    assert meant_by(job, at(job.boards[0].circuits[1].id, box), text) == (">" if box == "ir_earth" else stands)
    assert meant_by(job, at("c2", box), text) == stands
    assert meant_by(fresh(FormSet.EIC), at("c2", "ir_live"), ">") == ">"


def test_carrying_over_takes_the_place_of_a_board_that_only_names_who_tests() -> None:
    job = new_job(ChosenPapers(form_set=FormSet.EICR), on=ON, tester="Tamsin Orchard")
    after = done(job, details_of(complete_report(sign=False).model_copy(update={"number": "A-0001"})))
    (board,) = after.boards
    assert isinstance(board, Board)
    assert board.tested_by == "Tamsin Orchard"
    assert Place(section="boards", board=board.id, box="tested_by") in after.unconfirmed
