"""The schedule of circuit details: typed, added, removed and moved with keys alone."""

from collections.abc import Sequence
from pathlib import Path

import pytest

from domain.board import Board
from domain.box import boxes_of, typed_in
from domain.circuit import DETAIL_BOXES, RESULT_BOXES, Circuit
from domain.commands import AddBoard, AddCircuit, Enter
from domain.form_set import FormSet
from domain.job import Job
from domain.place import Place
from tests.builders import complete_certificate, complete_minor_works, done, entered, fresh
from tests.tui.screens.job_at import AtStep, at_step
from tui.screens.ask import ConfirmScreen
from tui.screens.circuits import CircuitsScreen
from tui.screens.details import DetailsScreen
from tui.screens.find import FindScreen

DETAILS = tuple(name for name in DETAIL_BOXES if boxes_of(Circuit)[name].is_asked(FormSet.EIC))


def schedule(job: Job, home: Path, place: Place | None = None, size: tuple[int, int] = (80, 24)):
    return at_step(CircuitsScreen, job, home, place=place, size=size)


def certificate(more: int = 0) -> Job:
    """A complete certificate, and so many circuits more, numbered from 3."""
    job = complete_certificate(sign=False)
    for number in range(3, 3 + more):
        last = job.boards[0].circuits[-1].id
        job = done(job, AddCircuit(board="b1", after=last, like=last))
        job = entered(job, {"number": str(number)}, board="b1", circuit=job.boards[0].circuits[-1].id)
    return job


def numbers(at: AtStep) -> Sequence[str]:
    return [circuit.number for circuit in at.job.boards[0].circuits]


async def test_typing_in_a_cell_and_enter_saves_it_and_goes_on_across_the_circuit(tmp_path: Path) -> None:
    async with schedule(fresh(FormSet.EIC), tmp_path) as at:
        assert "Enter across" in at.text
        await at.type("1", "enter")
        await at.type("Cooker", "enter")
        await at.type("rad", "enter")
        circuit = at.job.boards[0].circuits[0]
        assert (circuit.number, circuit.description, circuit.shape) == ("1", "Cooker", "radial")
        assert at.box == "wiring"


async def test_enter_goes_down_the_column_once_it_is_turned(tmp_path: Path) -> None:
    async with schedule(certificate(), tmp_path) as at:
        await at.press("ctrl+t")
        assert "Enter down" in at.text
        await at.press("right", "right", "right", "right", "right")
        await at.type("7", "enter")
        await at.type("9", "enter")
        assert [circuit.points.typed for circuit in at.job.boards[0].circuits] == ["7", "9"]
        assert at.box == "live_csa"


async def test_arrows_keep_what_was_typed_and_move(tmp_path: Path) -> None:
    async with schedule(certificate(), tmp_path, Place(section="boards", board="b1", circuit="c2", box="points")) as at:
        await at.type("4", "down")
        await at.type("5", "left")
        assert [circuit.points.typed for circuit in at.job.boards[0].circuits] == ["4", "5"]
        assert at.box == "method"


async def test_in_a_text_opened_for_changing_left_moves_inside_it(tmp_path: Path) -> None:
    async with schedule(certificate(), tmp_path) as at:
        await at.press("right", "ctrl+e", "home")
        await at.type("Big ", "enter")
        assert at.job.boards[0].circuits[0].description == "Big Kitchen sockets"


async def test_escape_gives_the_old_text_back(tmp_path: Path) -> None:
    async with schedule(certificate(), tmp_path) as at:
        await at.press("right")
        await at.type("Wrong", "escape")
        assert "Kitchen sockets" in at.text
        assert "Wrong" not in at.text
        assert at.job.boards[0].circuits[0].description == "Kitchen sockets"


async def test_number_and_description_stay_in_sight_in_every_column_group(tmp_path: Path) -> None:
    async with schedule(certificate(), tmp_path) as at:
        seen: set[str] = set()
        for _ in DETAILS:
            assert "Kitchen sockets" in at.text
            seen.add(at.box)
            await at.press("right")
        assert seen == set(DETAILS)


async def test_the_panel_says_the_heading_in_full_with_its_unit(tmp_path: Path) -> None:
    place = Place(section="boards", board="b1", circuit="c2", box="live_csa")
    async with schedule(certificate(), tmp_path, place) as at:
        assert "Live conductors, csa (mm²)" in at.panel
        assert "1 Kitchen sockets" in at.panel


async def test_a_new_circuit_takes_the_details_of_the_one_above_and_no_readings(tmp_path: Path) -> None:
    async with schedule(certificate(), tmp_path) as at:
        await at.press("ctrl+n")
        first, added, _ = at.job.boards[0].circuits
        assert added.number == ""
        counted = ("points", "length")
        assert (first.points.typed, [getattr(added, name).typed for name in counted]) == ("8", ["", ""])
        alike = [name for name in DETAILS if name not in {"number", *counted}]
        assert [getattr(added, name) for name in alike] == [getattr(first, name) for name in alike]
        assert [getattr(added, name) for name in RESULT_BOXES if name != "remarks"] == [
            type(first.zs).of("") for name in RESULT_BOXES if name != "remarks"
        ]
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
        assert at.box == "number"


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
        assert isinstance(at.app.screen, CircuitsScreen)


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


async def test_a_long_schedule_scrolls_with_the_cursor(tmp_path: Path) -> None:
    async with schedule(certificate(more=30), tmp_path) as at:
        await at.press("ctrl+end")
        assert at.box == DETAILS[-1]
        assert any(line.startswith("32 ") for line in at.text.splitlines())
        assert not any(line.startswith("1 ") for line in at.text.splitlines())
        await at.press("ctrl+home")
        assert any(line.startswith("1 ") for line in at.text.splitlines())
        await at.press("pagedown", "pagedown")
        assert any(line.startswith("23 ") for line in at.text.splitlines())


async def test_a_bad_entry_stays_with_what_is_wrong(tmp_path: Path) -> None:
    place = Place(section="boards", board="b1", circuit="c2", box="rating")
    async with schedule(certificate(), tmp_path, place) as at:
        await at.type("3two", "enter")
        assert at.job.boards[0].circuits[0].rating.typed == "3two"
        assert at.box == "rating"
        assert "3two✗" in at.text
        assert "is no number" in at.panel


async def test_a_gap_has_a_dot_and_an_rcd_box_without_an_rcd_is_not_needed(tmp_path: Path) -> None:
    job = entered(fresh(FormSet.EIC), {"number": "1", "rcd_standard": "N/A"}, board="b1", circuit="c2")
    async with schedule(job, tmp_path, Place(section="boards", board="b1", circuit="c2", box="rcd_standard")) as at:
        assert at.line_with("1    ").count("N/A") == 4
        await at.press("right")
        assert "Not needed here" in at.panel
        await at.press("ctrl+home", "right")
        assert at.line_with("1    ").startswith("1     · ")


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
        await at.press("ctrl+o")
        assert isinstance(at.app.screen, DetailsScreen)
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


async def test_what_the_log_refuses_stays_open_in_the_cell(tmp_path: Path) -> None:
    async with schedule(certificate(), tmp_path, Place(section="boards", board="b1", circuit="c2", box="rating")) as at:
        await at.type("1234567890123456789012345", "enter")
        assert "24 characters" in at.said
        assert at.job.boards[0].circuits[0].rating.typed == "32"
        await at.press("backspace", "down")
        assert at.job.boards[0].circuits[0].rating.typed == "123456789012345678901234"


@pytest.mark.parametrize("size", [(80, 24), (132, 40), (60, 20), (30, 10), (20, 6), (3, 2)])
async def test_the_schedule_stands_in_a_window_of_any_size(tmp_path: Path, size: tuple[int, int]) -> None:
    async with schedule(certificate(more=3), tmp_path, size=size) as at:
        await at.press("end", "pagedown", "x", "tab", "ctrl+home")
        assert at.box == "number"


async def test_going_on_stops_at_what_stands_where_nothing_can_and_marks_it(tmp_path: Path) -> None:
    at_rcd = Place(section="boards", board="b1", circuit="c2", box="rcd_standard")
    async with schedule(certificate(), tmp_path, at_rcd) as at:
        held = at.job.boards[0].circuits[0].rcd_type
        await at.type("N/A", "enter")
        assert at.box == "rcd_type"
        assert f"{held}✗" in at.line_with("Kitchen sockets")
        assert "the circuit has no RCD" in at.panel
        await at.type("na", "enter")
        assert (at.box, at.job.boards[0].circuits[0].rcd_type) == ("rcd_idn", "na")
        assert f"{held}✗" not in at.line_with("Kitchen sockets")


async def test_a_schedule_that_grows_again_shows_the_circuits_above_and_no_empty_lines(tmp_path: Path) -> None:
    async with schedule(certificate(more=9), tmp_path) as at:
        await at.press("ctrl+end", "f2")
        assert "Kitchen sockets" not in at.text
        await at.press("f2")
        assert "1     Kitchen sockets" in at.text
        assert "11    Lights, ground floor" in at.text
