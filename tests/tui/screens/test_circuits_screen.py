"""Circuits and boards added, numbered, found, moved and removed with keys alone."""

from pathlib import Path

import pytest

from domain.editing.commands import AddBoard, AddCircuit
from domain.forms.form_set import FormSet
from domain.job.board import Board
from domain.job.circuit import RESULT_BOXES, Circuit
from domain.place import Place
from tests.builders import complete_minor_works, done, entered, fresh
from tests.tui.screens.job_at import step_on
from tests.tui.screens.schedules import DETAILS, certificate, numbers, schedule
from tui.job_page import JobPage
from tui.screens.dialogs import ConfirmScreen
from tui.screens.find import FindScreen


async def test_a_new_circuit_takes_the_details_of_the_one_above_and_no_readings(tmp_path: Path) -> None:
    async with schedule(certificate(), tmp_path) as at:
        await at.press("ctrl+n")
        first, added, _ = at.job.boards[0].circuits
        assert added.number == ""
        counted = ("points", "length")
        assert (first.points.typed, [getattr(added, name).typed for name in counted]) == ("8", ["", ""])
        alike = [name for name in DETAILS if name not in {"number", *counted}]
        assert [getattr(added, name) for name in alike] == [getattr(first, name) for name in alike]
        forward = {place.box for place in at.job.unconfirmed if place.circuit == added.id}
        assert added.afdd_button.typed == "N/A"
        assert "afdd_button" in forward, "no reading: it waits for somebody's yes"
        read = [name for name in RESULT_BOXES if name not in {"remarks", *forward}]
        assert [getattr(added, name) for name in read] == [type(first.zs).of("") for _ in read]
        assert added.remarks == ""
        assert at.box == "number"
        await at.type("1A", "enter")
        assert numbers(at) == ["1", "1A", "2"]


@pytest.mark.parametrize(
    ("last", "added"),
    [
        ("2", "3"),
        ("9", "10"),
        ("2L1", "2L2"),
        ("2L3", "3L1"),
        ("2TP", "3TP"),
        ("B7", "B8"),
        ("DB1/4", "DB1/5"),
        ("x", ""),
    ],
)
async def test_a_new_circuit_is_numbered_on_from_the_one_above_as_ways_are(
    tmp_path: Path, last: str, added: str
) -> None:
    job = entered(certificate(), {"number": last}, board="b1", circuit="c3")
    async with schedule(job, tmp_path, Place(section="boards", board="b1", circuit="c3", box="method")) as at:
        await at.press("ctrl+n")
        assert numbers(at) == ["1", last, added]
        assert at.box == ("description" if added else "number")


async def test_removing_a_circuit_asks_by_name_and_no_keeps_it(tmp_path: Path) -> None:
    async with schedule(certificate(), tmp_path) as at:
        await at.press("ctrl+r", "ctrl+r")
        assert isinstance(at.app.screen, ConfirmScreen)
        assert "1 Kitchen sockets" in at.text
        await at.press("n")
        assert numbers(at) == ["1", "2"]
        await at.press("ctrl+r", "y")
        assert numbers(at) == ["2"]


async def test_an_empty_circuit_goes_without_a_question(tmp_path: Path) -> None:
    async with schedule(fresh(FormSet.EIC), tmp_path) as at:
        await at.press("ctrl+r")
        assert at.job.boards[0].circuits == ()
        assert "Ctrl+N adds one" in at.panel
        await at.press("enter", "right", "delete", "x", "ctrl+y", "ctrl+d", "f12", "ctrl+r")
        await at.press("ctrl+n")
        assert len(at.job.boards[0].circuits) == 1


async def test_a_circuit_moves_and_the_cursor_goes_with_it(tmp_path: Path) -> None:
    down, up = "ctrl+down", "ctrl+up"
    async with schedule(certificate(more=1), tmp_path) as at:
        await at.press(down)
        assert numbers(at) == ["2", "1", "3"]
        await at.press(down, down)
        assert numbers(at) == ["2", "3", "1"]
        assert "last circuit" in at.said
        await at.press(up)
        assert numbers(at) == ["2", "1", "3"]
        await at.type("1X", "enter")
        assert numbers(at) == ["2", "1X", "3"]


async def test_a_circuit_is_found_by_its_number(tmp_path: Path) -> None:
    async with schedule(certificate(more=30), tmp_path) as at:
        await at.press("ctrl+f", "ctrl+f")
        await at.type("31", "enter")
        assert "31 Lights, ground floor: Circuit number" in at.panel
        assert at.line_with("31   ")


async def test_what_is_no_circuit_of_the_job_is_looked_for_among_all_jobs(tmp_path: Path) -> None:
    async with schedule(certificate(), tmp_path) as at:
        await at.press("ctrl+f")
        await at.type("fairweather", "enter")
        assert isinstance(at.app.screen, FindScreen)
        assert "Find: fairweather" in at.text
        assert at.number in at.text
        await at.press("escape")
        assert step_on(at.app) is JobPage.CIRCUITS


async def test_a_circuit_on_another_board_is_gone_to_as_well(tmp_path: Path) -> None:
    job = done(certificate(), AddBoard())
    board = job.boards[1].id
    job = done(job, AddCircuit(board=board))
    job = entered(job, {"number": "B7"}, board=board, circuit=job.boards[1].circuits[0].id)
    async with schedule(job, tmp_path) as at:
        await at.press("ctrl+f")
        await at.type("b7", "enter")
        assert at.screen.where() == Place(
            section="boards", board=board, circuit=job.boards[1].circuits[0].id, box="number"
        )


async def test_boards_follow_one_another_and_a_new_one_starts_at_its_header(tmp_path: Path) -> None:
    job = done(certificate(), AddBoard())
    job = entered(job, {"designation": "DB2"}, board=job.boards[1].id)
    async with schedule(job, tmp_path) as at:
        assert "DB1 (1 of 2)" in at.text
        await at.press("ctrl+right")
        assert "DB2 (2 of 2)" in at.text
        assert "Ctrl+N adds one" in at.panel
        await at.press("ctrl+n")
        await at.type("1", "enter")
        assert at.job.boards[1].circuits[0].number == "1"
        await at.press("ctrl+left")
        assert "DB1 (1 of 2)" in at.text
        await at.press("ctrl+o", "enter")
        assert step_on(at.app) is JobPage.DETAILS
        assert at.box == "designation"


async def test_a_single_board_says_that_there_is_no_other(tmp_path: Path) -> None:
    async with schedule(certificate(), tmp_path) as at:
        await at.press("ctrl+right")
        assert "no other board" in at.said


async def test_a_job_without_a_board_says_how_to_add_one(tmp_path: Path) -> None:
    job = certificate().model_copy(update={"boards": ()})
    async with schedule(job, tmp_path) as at:
        assert "Ctrl+O adds one" in at.panel
        await at.press("enter", "right", "x", "f12", "ctrl+y", "ctrl+d", "ctrl+r", "ctrl+right", "ctrl+n")
        assert "no board" in at.said


async def test_minor_works_is_a_page_of_boxes_of_its_one_circuit(tmp_path: Path) -> None:
    async with schedule(complete_minor_works(sign=False), tmp_path) as at:
        assert "── DB1, 1 Kitchen sockets" in at.text
        await at.type("2", "enter")
        assert at.job.boards[0].circuits[0].number == "2"
        await at.press("ctrl+n")
        assert "Minor works covers one existing circuit" in at.said


async def test_minor_works_with_a_circuit_too_many_is_a_schedule_until_that_has_gone(tmp_path: Path) -> None:
    job = complete_minor_works(sign=False)
    more = Board(id="b8", designation="DB2", circuits=(Circuit(id="c9", number="7"),))
    first = job.boards[0].model_copy(update={"circuits": ()})
    async with schedule(job.model_copy(update={"boards": (*job.boards, more)}), tmp_path) as at:
        assert "DB1 (1 of 2)" in at.text
        await at.press("ctrl+r", "y")
        assert "── DB2, 7" in at.text
        await at.press("tab", "x", "enter")
        assert at.job.boards[1].circuits[0].description == "x"
    async with schedule(job.model_copy(update={"boards": (first, more)}), tmp_path / "other") as at:
        assert "── DB2, 7" in at.text


async def test_a_way_that_becomes_spare_is_emptied_after_one_question_and_one_undo_takes_that_back(
    tmp_path: Path,
) -> None:
    place = Place(section="boards", board="b1", circuit="c2", box="shape")
    async with schedule(certificate(), tmp_path, place) as at:
        before = at.job.boards[0].circuits[0]
        await at.type("sp", "enter")
        assert "1 Kitchen sockets is spare now" in at.text
        await at.press("y")
        circuit = at.job.boards[0].circuits[0]
        assert (circuit.number, circuit.description, circuit.shape) == ("1", "Spare", "spare")
        assert not any(getattr(circuit, name).typed for name in ("live_csa", "rating", "zs"))
        await at.press("ctrl+u")
        assert at.job.boards[0].circuits[0].zs == before.zs
        await at.press("ctrl+u")
        at.screen.part.go_to(place)
        await at.type("sp", "enter", "n")
        assert at.job.boards[0].circuits[0].is_spare
        assert at.job.boards[0].circuits[0].zs == before.zs
