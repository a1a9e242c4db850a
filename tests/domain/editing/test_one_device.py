"""An RCBO is typed once: the boxes of its RCD follow, and say otherwise where somebody says otherwise."""

import pytest

from domain.editing.commands import AddCircuit, Enter
from domain.job.circuit import Circuit
from domain.job.job import Job
from domain.place import Place
from tests.builders import complete_certificate, done

RCBO, BREAKER, RCCB = "BS EN 61009", "BS EN 60898", "BS EN 61008"


def circuit_after(job: Job, *typed: tuple[str, str]) -> Circuit:
    """The last circuit of the job once these texts are typed into its boxes."""
    board = job.boards[0]
    place = Place(section="boards", board=board.id, circuit=board.circuits[-1].id)
    commands = [Enter(place=place.model_copy(update={"box": box}), text=text) for box, text in typed]
    return done(job, *commands).boards[0].circuits[-1]


@pytest.fixture
def job() -> Job:
    """A job whose last circuit is empty."""
    job = complete_certificate(sign=False)
    return done(job, AddCircuit(board=job.boards[0].id, after=job.boards[0].circuits[-1].id))


@pytest.mark.parametrize(
    ("typed", "stands"),
    [
        ([("device_standard", RCBO), ("rating", "32")], (RCBO, "32", RCBO, "32")),
        ([("rating", "32"), ("device_standard", RCBO)], (RCBO, "32", RCBO, "32")),
        ([("rating", "6"), ("rcd_standard", RCBO)], (RCBO, "6", RCBO, "6")),
        ([("device_standard", BREAKER), ("rating", "32")], (BREAKER, "32", "", "")),
        ([("rcd_standard", RCCB), ("device_standard", RCBO), ("rating", "32")], (RCBO, "32", RCCB, "")),
        ([("device_standard", RCBO), ("rating", "32"), ("rating", "6")], (RCBO, "6", RCBO, "6")),
        ([("device_standard", RCBO), ("rating", "32"), ("rcd_rating", "40"), ("rating", "6")], (RCBO, "6", RCBO, "40")),
        ([("device_standard", RCBO), ("rating", "32"), ("device_standard", BREAKER)], (BREAKER, "32", "", "")),
        ([("rcd_standard", "N/A"), ("device_standard", RCBO)], (RCBO, "", "N/A", "")),
    ],
)
def test_device_and_rcd_agree_where_one_rcbo_is_both(
    job: Job, typed: list[tuple[str, str]], stands: tuple[str, ...]
) -> None:
    circuit = circuit_after(job, *typed)
    assert (circuit.device_standard, circuit.rating.typed, circuit.rcd_standard, circuit.rcd_rating.typed) == stands


def test_a_circuit_like_the_one_above_takes_a_new_rating_to_both(job: Job) -> None:
    board = job.boards[0]
    place = Place(section="boards", board=board.id, circuit=board.circuits[-1].id)
    texts = (("device_standard", RCBO), ("rating", "32"))
    job = done(job, *(Enter(place=place.model_copy(update={"box": box}), text=text) for box, text in texts))
    last = job.boards[0].circuits[-1].id
    circuit = circuit_after(done(job, AddCircuit(board=board.id, after=last, like=last)), ("rating", "6"))
    assert (circuit.rating.typed, circuit.rcd_rating.typed) == ("6", "6")
