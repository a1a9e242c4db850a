"""The schedule of circuit details: typed, saved, shown and refused, with keys alone."""

from pathlib import Path

import pytest

from domain.forms.form_set import FormSet
from domain.place import Place
from tests.builders import entered, fresh
from tests.tui.screens.schedules import DETAILS, certificate, schedule


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
        await at.press("f8", "f5")
        assert "Enter down" in at.text


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
