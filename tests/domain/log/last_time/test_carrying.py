"""Details carry over on request; what is found on the day never does.

What follows from a detail is put forward beside it, as it is where the detail is typed: N/A where nothing can be there,
and the test voltage of low voltage, which an instrument is set to. Somebody says yes to each of these.
"""

from domain.editing.carrying import carried_in, details_of
from domain.editing.commands import AddCircuit
from domain.forms.form_set import FormSet
from domain.job.board import Board
from domain.job.box import BoxKind, boxes_of, typed_in
from domain.job.circuit import DETAIL_BOXES, Circuit
from domain.job.job import SECTIONS, Job
from tests.builders import complete_certificate, complete_report, done, entered, fresh

DAY = {BoxKind.READING, BoxKind.TICK, BoxKind.DATE}
FOLLOWS = {"phase_sequence": "N/A", "afdd_button": "N/A", "test_voltage": "500"}
"""What a board of one phase, and a device that is no AFDD of a circuit of low voltage, put forward."""


def found_on_the_day(job: Job) -> list[str]:
    """The boxes of the day that hold something, but for what follows from a detail and waits for somebody's yes."""
    at = {(each.board, each.circuit, each.box) for each in job.unconfirmed}
    parts = [(getattr(job, name), section, ("", "")) for name, section in SECTIONS.items()]
    parts += [(board, Board, (board.id, "")) for board in job.boards]
    parts += [(circuit, Circuit, (board.id, circuit.id)) for board, circuit in job.circuits()]
    return [
        name
        for part, kind, owner in parts
        for name, box in boxes_of(kind).items()
        if (text := typed_in(part, name))
        and (box.kind in DAY or (kind is Circuit and name not in DETAIL_BOXES))
        and not ((*owner, name) in at and text == FOLLOWS.get(name))
    ]


def test_boards_and_circuits_come_with_their_details_and_without_a_reading() -> None:
    earlier = complete_certificate()
    job = done(fresh(FormSet.EICR), details_of(earlier))
    assert [board.designation for board in job.boards] == ["DB1"]
    assert [circuit.description for _, circuit in job.circuits()] == ["Kitchen sockets", "Lights, ground floor"]
    assert (job.supply.system, job.main_switch.location) == ("TN-C-S", "Hall cupboard")
    assert job.boards[0].tested_by == ""
    assert found_on_the_day(job) == []
    assert found_on_the_day(earlier) != []


def test_what_follows_from_a_detail_is_put_forward_with_it_and_never_what_was_found() -> None:
    """A three-phase board whose order of phases was found, an AFDD whose button was tried, a circuit tested at 250 V."""
    board, ring, lights = {"board": "b1"}, {"board": "b1", "circuit": "c2"}, {"board": "b1", "circuit": "c3"}
    earlier = complete_certificate()
    assert [each.id for _, each in earlier.circuits()] == [ring["circuit"], lights["circuit"]]
    earlier = entered(earlier, {"phases": "3", "phase_sequence": "Y"}, **board)
    earlier = entered(earlier, {"device_standard": "BS EN 62606", "afdd_button": "Y"}, **ring)
    earlier = entered(earlier, {"test_voltage": "250"}, **lights)
    job = done(fresh(FormSet.EICR), details_of(earlier))
    ((_, afdd), (_, other)) = job.circuits()
    assert typed_in(job.boards[0], "phase_sequence") == typed_in(afdd, "afdd_button") == ""
    assert (typed_in(afdd, "test_voltage"), typed_in(other, "test_voltage")) == ("500", "500")
    assert typed_in(other, "afdd_button") == "N/A"
    assert found_on_the_day(job) == []
    assert found_on_the_day(job.model_copy(update={"unconfirmed": ()})) != []


def test_what_was_typed_already_stays() -> None:
    job = entered(fresh(FormSet.EICR), {"system": "TT"}, section="supply")
    job = entered(job, {"designation": "DB1", "location": "Loft"}, board="b1")
    after = done(job, details_of(complete_certificate()))
    assert after.supply.system == "TT"
    assert [(board.designation, board.location) for board in after.boards] == [("DB1", "Loft")]


def test_a_second_time_changes_nothing() -> None:
    once = done(fresh(FormSet.EICR), details_of(complete_certificate()))
    assert done(once, details_of(complete_certificate())) == once


def test_a_board_carried_before_stays_beside_that_of_another_paper_though_nobody_said_yes_to_it_yet() -> None:
    once = done(fresh(FormSet.EICR), details_of(complete_certificate()))
    other = entered(complete_certificate(), {"designation": "DB2"}, board="b1")
    twice = done(once, details_of(other))
    assert [board.designation for board in twice.boards] == ["DB1", "DB2"]
    assert twice.boards[0] == once.boards[0]


def test_readings_put_into_the_command_by_hand_are_left_out() -> None:
    earlier = complete_certificate()
    forged = details_of(earlier).model_copy(update={"boards": earlier.boards})
    assert found_on_the_day(done(fresh(FormSet.EICR), forged)) == []


def test_circuits_added_later_get_ids_of_their_own() -> None:
    job = done(fresh(FormSet.EICR), details_of(complete_report()))
    job = done(job, AddCircuit(board=job.boards[0].id))
    ids = [circuit.id for _, circuit in job.circuits()]
    assert len(ids) == len(set(ids)) == 3


def test_minor_works_takes_the_origin_and_no_boards() -> None:
    before = fresh(FormSet.MEIWC)
    job = done(before, details_of(complete_certificate()))
    assert job.supply.system == "TN-C-S"
    assert job.boards == before.boards


def test_minor_works_takes_the_one_circuit_it_is_with_its_board_where_nothing_is_typed() -> None:
    earlier = complete_certificate()
    was = earlier.boards[0].circuits[1]
    before = entered(fresh(FormSet.MEIWC), {"description": "Lights, hall"}, board="b1", circuit="c2")
    job = done(before, details_of(earlier, was.id))
    ((board, circuit),) = job.circuits()
    assert (board.id, board.designation, circuit.id) == ("b1", "DB1", "c2")
    assert (circuit.description, circuit.rating, circuit.live_csa) == ("Lights, hall", was.rating, was.live_csa)
    assert found_on_the_day(job) == []
    assert carried_in(before, job) > 10
    assert carried_in(job, done(job, details_of(earlier, was.id))) == 0
