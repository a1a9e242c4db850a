"""A board is begun from a list, a circuit by a letter or two, and a board is kept for the next job."""

from pathlib import Path

from domain.forms.form_set import FormSet
from domain.register.entries import KnownBoard, RegisterKind
from domain.usual.filled_boards import filled_boards
from tests.builders import entered, fresh
from tests.tui.screens.details_page import at as box_at
from tests.tui.screens.details_page import page
from tests.tui.screens.schedules import numbers, schedule
from tui.screens.filled_boards import FilledBoardsScreen


async def test_a_board_is_filled_from_the_list_a_circuit_added_by_its_kind_and_the_whole_kept(tmp_path: Path) -> None:
    async with schedule(entered(fresh(FormSet.EIC), {"designation": "CU"}, board="b1"), tmp_path) as at:
        assert "Ctrl+O fills this board from a list" in at.panel
        await at.press("ctrl+o", "1")
        usual = filled_boards()[0].board.circuits
        assert numbers(at) == [each.number for each in usual]
        assert f"{len(usual)} ways put forward" in at.said
        assert "Cooker=" in at.text
        await at.press("ctrl+end", "ctrl+n")
        await at.type("sho")
        assert "Ctrl+Y takes Shower, radial, 10/4 mm², B 40 A" in at.panel
        await at.press("ctrl+y")
        shower = at.job.boards[0].circuits[-1]
        assert (shower.number, shower.description, shower.rating.typed) == (str(len(usual) + 1), "Shower", "40")
        assert at.box == "points"
        await at.press("left", "ctrl+y")
        assert not [each for each in at.job.unconfirmed if each.circuit and each.box == "rating"]
        await at.press("ctrl+o")
        assert isinstance(at.app.screen, FilledBoardsScreen)
        await at.press("s", *["backspace"] * 2, *"Small house", "enter")
        (kept,) = at.log.registered(RegisterKind.BOARD)
        assert isinstance(kept.entry, KnownBoard)
        assert kept.entry.board.circuits[-1].description == "Shower"
        assert "Small house" in at.text
        await at.press("escape")
        assert len(at.job.boards) == 1


async def test_letters_that_mean_no_kind_are_kept_as_typed_and_phrases_are_taken_by_a_letter(tmp_path: Path) -> None:
    async with page(fresh(FormSet.EIC), tmp_path, box_at("work", "extent")) as at:
        await at.type("the c")
        assert "Ctrl+Y takes: The circuits on the schedule" in at.panel
        await at.press("ctrl+y")
        assert at.job.work.extent == "The circuits on the schedule, and nothing else"
        assert at.box == "completed_on"
