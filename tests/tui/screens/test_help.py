"""F1 and the list of everything tell what can be done where one is, from the one table of keys."""

from pathlib import Path

import pytest

from domain.forms.form_set import FormSet
from domain.place import Place
from tests.builders import complete_certificate, entered, fresh
from tests.tui.screens.job_at import at_step, step_on
from tests.tui.screens.services import app_in
from tests.tui.screens.shown import lines_of, text_of
from tui.job_page import JobPage
from tui.keys import keys_at
from tui.screens.coach import CoachScreen
from tui.screens.dialogs import FormScreen
from tui.screens.explained import explained
from tui.screens.help import HelpScreen

STEPS = ["f3", "f4", "f5", "f6", "f7", "f8", "f9"]


@pytest.mark.parametrize("step", STEPS)
async def test_help_says_what_a_step_is_for_and_every_key_that_works_there(step: str, tmp_path: Path) -> None:
    app = app_in(tmp_path, complete_certificate())
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", step)
        await pilot.pause()
        screen, keys = app.screen, keys_at(app.screen)
        await pilot.press("f1")
        assert isinstance(app.screen, HelpScreen)
        read = text_of(app)
        while "more below" in text_of(app):
            await pilot.press("pagedown")
            read += text_of(app)
        words = " ".join(read.split())
        assert explained(screen)
        assert " ".join(explained(screen).split()[:6]) in words
        assert [key.id for key, _ in keys if f"{key.shown} " not in read] == []
        await pilot.press("f1")
        assert app.screen is screen


async def test_help_says_whole_what_there_was_no_room_for_below_a_schedule(tmp_path: Path) -> None:
    job = entered(complete_certificate(sign=False), {"zs": "8.90"}, board="b1", circuit="c2")
    place = Place(section="boards", board="b1", circuit="c2", box="zs")
    async with at_step(JobPage.RESULTS, job, tmp_path, place=place) as at:
        wrong = at.screen.part.entering.current.says
        await at.press("f1")
        words = " ".join(at.text.split())
        assert "DB1, 1 Kitchen sockets: Measured Zs" in words
        told = [part for text in wrong for part in " ".join(text.split()).removesuffix("]").split(" [")]
        assert len(told) == 2 * len(wrong)
        assert [part for part in told if part not in words] == [], "what is wrong first, its source further down"


async def test_help_works_over_a_question_and_goes_back_to_it(tmp_path: Path) -> None:
    app = app_in(tmp_path, fresh(FormSet.EIC))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "f7", "r", "a", "f1")
        assert isinstance(app.screen, HelpScreen)
        assert "Takes all lines as they stand" in text_of(app)
        await pilot.press("escape")
        assert isinstance(app.screen, FormScreen)
        assert "What:      a" in text_of(app)


async def test_what_function_keys_do_over_a_question_can_be_picked_too(tmp_path: Path) -> None:
    app = app_in(tmp_path, fresh(FormSet.EIC))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "f7", "r", "a", "ctrl+p", *"coach", "enter")
        await pilot.pause()
        assert isinstance(app.screen, CoachScreen)
        await pilot.press("escape", "ctrl+p", *"every key", "enter")
        await pilot.pause()
        assert isinstance(app.screen, HelpScreen)
        await pilot.press("escape")
        assert "What:      a" in text_of(app)


async def test_the_list_of_everything_does_what_is_picked(tmp_path: Path) -> None:
    app = app_in(tmp_path, fresh(FormSet.EIC))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "ctrl+p", *"inspect", "enter")
        await pilot.pause()
        assert step_on(app) is JobPage.INSPECTION
        await pilot.press("ctrl+p", *"n/a", "enter")
        await pilot.pause()
        assert app.services.log.load("A-0001").inspection != ()


async def test_the_list_of_everything_says_in_full_what_each_does(tmp_path: Path) -> None:
    app = app_in(tmp_path, fresh(FormSet.EIC))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "ctrl+p", *"take known")
        assert "or shows the register." in " ".join(text_of(app).replace("│", "").split())


async def test_the_list_of_everything_leaves_all_alone_on_escape(tmp_path: Path) -> None:
    app = app_in(tmp_path, fresh(FormSet.EIC))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "f7", "ctrl+p", *"zzz", "enter", "escape", "escape")
        await pilot.pause()
        assert "or go on with a job" in text_of(app) or step_on(app) is JobPage.RAISED


async def test_a_small_window_asks_for_a_larger_one_keeps_what_is_typed_and_takes_no_key_but_the_one_that_leaves(
    tmp_path: Path,
) -> None:
    app = app_in(tmp_path, fresh(FormSet.EIC))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", *"Marigold")
        await pilot.resize_terminal(60, 20)
        await pilot.pause()
        assert "too small" in text_of(app)
        assert "Marigold" not in text_of(app)
        await pilot.press(*" Finch", "f7", "escape")
        await pilot.resize_terminal(80, 24)
        await pilot.pause()
        assert "too small" not in text_of(app)
        assert "Marigold" in text_of(app)
        assert "Finch" not in text_of(app), "no key acts unseen"
        await pilot.press(*" Finch")
        assert "Marigold Finch" in text_of(app)
        await pilot.resize_terminal(60, 20)
        await pilot.press("ctrl+x")
        await pilot.pause()
        assert not app.is_running


@pytest.mark.parametrize("opens", [("f7", "r", "a"), ("f7", "r", "f2"), ("ctrl+p",), ("f1",)])
async def test_a_small_window_asks_for_a_larger_one_over_whatever_is_open(
    opens: tuple[str, ...], tmp_path: Path
) -> None:
    app = app_in(tmp_path, fresh(FormSet.EIC))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", *opens)
        before = text_of(app)
        for size, says in (((60, 20), "nothing is lost"), ((10, 3), "Too small.\nMake it\n80x24.")):
            await pilot.resize_terminal(*size)
            await pilot.pause()
            assert says in "\n".join(line.rstrip() for line in lines_of(app))
            assert all(word not in text_of(app) for word in ("F1", "Do:", "│"))
        await pilot.resize_terminal(80, 24)
        await pilot.pause()
        assert text_of(app) == before


@pytest.mark.parametrize("size", [(79, 24), (80, 23), (20, 6), (1, 1)])
async def test_no_window_is_too_small_to_start_in(size: tuple[int, int], tmp_path: Path) -> None:
    app = app_in(tmp_path, fresh(FormSet.EIC))
    async with app.run_test(size=size) as pilot:
        await pilot.press("enter", "f6", "n", "f7", "r", "escape", "f1", "escape")
        await pilot.resize_terminal(80, 24)
        await pilot.pause()
        assert step_on(app) is None, "no key acts unseen"
        await pilot.press("enter", "f7")
        await pilot.pause()
        assert step_on(app) is JobPage.RAISED
        assert all(len(line) <= 80 for line in lines_of(app))
