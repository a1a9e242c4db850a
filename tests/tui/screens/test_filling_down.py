"""Details taken from the circuit above, or filled down the schedule, and never a reading."""

from pathlib import Path

import pytest

from domain.editing.commands import AddCircuit, Enter
from domain.job.box import typed_in
from domain.place import Place
from tests.builders import done, entered
from tests.tui.screens.job_at import AtStep
from tests.tui.screens.schedules import certificate, schedule


async def test_ctrl_y_takes_the_detail_of_the_circuit_above(tmp_path: Path) -> None:
    job = done(certificate(), AddCircuit(board="b1"))
    empty = job.boards[0].circuits[-1].id
    place = Place(section="boards", board="b1", circuit=empty, box="shape")
    async with schedule(job, tmp_path, place) as at:
        await at.press("ctrl+y", "ctrl+y")
        circuit = at.job.boards[0].circuits[-1]
        assert (circuit.shape, circuit.wiring) == ("radial", "A")
        assert at.box == "method"


async def test_ctrl_y_over_a_text_waits_for_enter(tmp_path: Path) -> None:
    place = Place(section="boards", board="b1", circuit="c3", box="points")
    async with schedule(certificate(), tmp_path, place) as at:
        await at.press("ctrl+y")
        assert at.job.boards[0].circuits[1].points.typed == "11"
        await at.press("escape")
        assert at.job.boards[0].circuits[1].points.typed == "11"
        await at.press("ctrl+y", "enter")
        assert at.job.boards[0].circuits[1].points.typed == "8"
        await at.press("left", "ctrl+y")
        await at.type("17", "enter")
        assert at.job.boards[0].circuits[1].points.typed == "17", "typing replaces what was only put forward"


async def test_ctrl_y_on_the_first_circuit_says_why_not(tmp_path: Path) -> None:
    async with schedule(certificate(), tmp_path) as at:
        await at.press("ctrl+y")
        assert "no circuit above" in at.said


def of_the_circuits(at: AtStep, box: str) -> list[str]:
    return [typed_in(circuit, box) for circuit in at.job.boards[0].circuits]


async def test_a_detail_is_filled_down_as_far_as_asked_and_taken_back_by_one_undo(tmp_path: Path) -> None:
    place = Place(section="boards", board="b1", circuit="c2", box="method")
    job = certificate(more=3)
    for circuit in job.boards[0].circuits[1:]:
        box = Place(section="boards", board="b1", circuit=circuit.id, box="method")
        job = done(job, Enter(place=box, text=""))
    job = entered(job, {"method": "C"}, board="b1", circuit="c2")
    async with schedule(job, tmp_path, place) as at:
        await at.press("ctrl+d")
        assert "1 Kitchen sockets, as it stands" in at.text
        await at.press("ctrl+u")
        await at.type("4", "enter", "enter")
        assert of_the_circuits(at, "method") == ["C", "C", "C", "C", ""]
        assert "3 boxes filled" in at.said
        await at.press("ctrl+u")
        assert of_the_circuits(at, "method") == ["C", "", "", "", ""]


async def test_all_details_are_filled_down_but_what_differs_from_circuit_to_circuit(tmp_path: Path) -> None:
    job = certificate(more=2)
    before = job.boards[0].circuits
    async with schedule(job, tmp_path) as at:
        await at.press("right", "right", "ctrl+d", "enter", "3", "enter")
        assert "hold another text now, which goes" in at.text
        await at.press("y")
        after = at.job.boards[0].circuits
        assert {circuit.rating.typed for circuit in after} == {before[0].rating.typed}
        for own in ("number", "description", "points", "length"):
            assert of_the_circuits(at, own) == [typed_in(circuit, own) for circuit in before]
        assert [circuit.zs for circuit in after] == [circuit.zs for circuit in before]


async def test_a_spare_way_is_left_out_of_a_filling(tmp_path: Path) -> None:
    job = entered(certificate(more=1), {"shape": "spare"}, board="b1", circuit="c3")
    job = entered(job, {"wiring": "C"}, board="b1", circuit="c2")
    async with schedule(job, tmp_path, Place(section="boards", board="b1", circuit="c2", box="wiring")) as at:
        await at.press("ctrl+d", "enter", "enter", "y")
        assert of_the_circuits(at, "wiring") == ["C", "A", "C"]


async def test_what_cannot_stand_is_not_filled_down(tmp_path: Path) -> None:
    place = Place(section="boards", board="b1", circuit="c2", box="rating")
    job = entered(certificate(more=1), {"rating": "C"}, board="b1", circuit="c2")
    async with schedule(job, tmp_path, place) as at:
        before = at.job
        await at.press("ctrl+d")
        assert "put it right first" in at.said
        assert at.job == before


@pytest.mark.parametrize(("circuit", "box", "why"), [("c2", "number", "own"), ("c4", "method", "last circuit")])
async def test_a_filling_that_cannot_be_says_why(tmp_path: Path, circuit: str, box: str, why: str) -> None:
    job = certificate(more=1)
    last = job.boards[0].circuits[-1].id
    place = Place(section="boards", board="b1", circuit=last if circuit == "c4" else circuit, box=box)
    async with schedule(job, tmp_path, place) as at:
        before = at.job
        await at.press("ctrl+d")
        assert why in at.said
        assert at.job == before
