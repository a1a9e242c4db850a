"""What is known already is put forward, marked until somebody said yes to it, and never a reading."""

import pytest

from domain.editing.audit_text import audit_text
from domain.editing.carrying import details_of
from domain.editing.commands import AddBoard, AddCircuit, Command, Confirm, Enter, PutForward, RemoveBoard
from domain.editing.undo import Edit, UndoStep, kept, step_back, step_forward
from domain.forms.choice.chosen import ChosenPapers
from domain.forms.form_set import FormSet
from domain.gate.gaps import gaps_of
from domain.job.exchange import job_from_json, job_to_json
from domain.job.instrument import Instruments
from domain.job.job import Job
from domain.job.people import Firm
from domain.job.place_in_words import box_at, text_at
from domain.job.start import new_job
from domain.place import Place
from tests.builders import ON, complete_certificate, done, enter, entered, fresh

FREQUENCY = Place(section="supply", box="frequency")


def at(box: str, circuit: str = "") -> Place:
    return Place(section="boards", board="b1", circuit=circuit, box=box)


def waiting(job: Job) -> dict[str, str]:
    """What is put forward, by box."""
    return {place.box: text_at(job, place) for place in job.unconfirmed}


@pytest.mark.parametrize(
    ("live", "voltages"),
    [("AC 1-phase 2-wire", ("230", "230", "50")), ("AC 3-phase 4-wire", ("400", "230", "50")), ("DC 2-wire", None)],
)
def test_the_live_conductors_put_nominal_values_of_the_public_supply_forward(
    live: str, voltages: tuple[str, ...] | None
) -> None:
    # Nominal voltages of BS EN 60038 and 50 Hz, as regulation 27 of the Electricity Safety, Quality and Continuity
    # Regulations 2002 declares them for a low-voltage supply; from memory.
    held = waiting(entered(fresh(FormSet.EIC), {"live_conductors": live}, section="supply"))
    assert held == (dict(zip(("voltage", "voltage_to_earth", "frequency"), voltages, strict=True)) if voltages else {})


def test_what_was_put_forward_goes_with_its_answer_and_what_was_typed_stays() -> None:
    job = entered(fresh(FormSet.EIC), {"live_conductors": "AC 1-phase 2-wire", "frequency": "60"}, section="supply")
    job = entered(job, {"live_conductors": "AC 3-phase 4-wire"}, section="supply")
    assert waiting(job) == {"voltage": "400", "voltage_to_earth": "230"}
    assert job.supply.frequency.typed == "60"


def test_a_single_phase_has_no_phase_sequence_and_a_breaker_no_arc_fault_detection() -> None:
    job = entered(fresh(FormSet.EIC), {"phases": "1"}, board="b1")
    job = entered(job, {"device_standard": "BS EN 60898"}, board="b1", circuit="c2")
    assert waiting(job) == {"phase_sequence": "N/A", "afdd_button": "N/A", "test_voltage": "500"}
    assert waiting(entered(job, {"phases": "3"}, board="b1")) == {"afdd_button": "N/A", "test_voltage": "500"}
    minor = entered(fresh(FormSet.MEIWC), {"device_standard": "BS EN 60898"}, board="b1", circuit="c2")
    assert waiting(minor) == {"afdd_standard": "N/A", "test_voltage": "500"}
    fitted = entered(fresh(FormSet.EIC), {"device_standard": "BS EN 62606"}, board="b1", circuit="c2")
    assert waiting(fitted) == {"test_voltage": "500"}


def test_measured_values_and_boxes_that_hold_something_are_never_put_forward() -> None:
    job = done(fresh(FormSet.EIC), enter("supply", "frequency", "50"))
    places = (at("zs", "c2"), at("zs"), FREQUENCY, at("description", "c2"))
    after = done(job, PutForward(entries=tuple(Enter(place=place, text="7") for place in places)))
    assert after.unconfirmed == (at("description", "c2"),)
    assert text_at(after, at("zs", "c2")) == ""


@pytest.mark.parametrize("says_yes", [Confirm(places=(FREQUENCY,)), enter("supply", "frequency", "50")])
def test_a_yes_is_kept_taken_back_and_given_again(says_yes: Command) -> None:
    job = done(fresh(FormSet.EIC), PutForward(entries=(Enter(place=FREQUENCY, text="50"),)))
    after = done(job, says_yes)
    assert after == job.model_copy(update={"unconfirmed": ()})
    edits = [Edit(2, audit_text(job, says_yes), kept(job, after))]
    back = step_back(after, edits)
    assert isinstance(back, UndoStep)
    assert back.job == job
    forward = step_forward(back.job, [*edits, Edit(3, back.says, "", undoes=2)])
    assert isinstance(forward, UndoStep)
    assert forward.job == after


def test_a_yes_to_one_box_is_taken_back_beside_that_of_somebody_to_another() -> None:
    entries = (Enter(place=FREQUENCY, text="50"), Enter(place=at("location"), text="Hall"))
    job = done(fresh(FormSet.EIC), PutForward(entries=entries))
    mine = done(job, Confirm(places=(FREQUENCY,)))
    both = done(mine, Confirm(places=(at("location"),)))
    back = step_back(both, [Edit(2, "Confirmed", kept(job, mine))])
    assert isinstance(back, UndoStep)
    assert back.job.unconfirmed == (FREQUENCY,)


def test_firm_instruments_and_tester_of_the_job_before_are_put_forward() -> None:
    job = new_job(
        ChosenPapers(form_set=FormSet.EIC),
        on=ON,
        firm=Firm(name="Quenby Electrics"),
        instruments=Instruments(multifunction="M-1"),
        tester="Ana Quenby",
    )
    assert waiting(job) == {"name": "Quenby Electrics", "multifunction": "M-1", "tested_by": "Ana Quenby"}
    assert fresh(FormSet.EIC).unconfirmed == ()


def test_every_detail_carried_over_waits_for_a_yes_and_the_gate_asks_once_for_each_circuit() -> None:
    job = done(fresh(FormSet.EIC), details_of(complete_certificate()))
    assert {"system", "designation", "rating"} <= set(waiting(job))
    assert not [place for place in job.unconfirmed if (box := box_at(job, place)) and box.is_measured]
    asked = [gap.place.whose for gap in gaps_of(job) if gap.kind == "never-confirmed"]
    assert len(asked) == len(set(asked)) == len({place.whose for place in job.unconfirmed})


def test_marks_go_with_their_board_and_with_a_circuit_made_alike() -> None:
    job = done(fresh(FormSet.EIC), AddBoard())
    job = done(job, PutForward(entries=(Enter(place=at("rating", "c2"), text="32"),)))
    alike = done(job, AddCircuit(board="b1", like="c2"))
    assert [place.circuit for place in alike.unconfirmed] == ["c2", alike.boards[0].circuits[1].id]
    assert done(alike, RemoveBoard(board="b1")).unconfirmed == ()


def test_a_record_without_them_has_no_field_for_them_and_one_with_them_is_read_back() -> None:
    job = fresh(FormSet.EIC)
    assert "unconfirmed" not in job_to_json(job)
    job = done(job, PutForward(entries=(Enter(place=FREQUENCY, text="50"),)))
    assert job_from_json(job_to_json(job)) == job
