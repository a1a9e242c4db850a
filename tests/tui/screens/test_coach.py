"""F2 opens and closes the coach on every screen, and it never covers what is typed into."""

from pathlib import Path

import pytest

from domain.coach.abbreviations import spelled_out
from domain.coach.danger import Danger, dangers
from domain.coach.entry import entries
from domain.editing.commands import Enter
from domain.forms.form_set import FormSet
from domain.place import Place
from tests.builders import complete_certificate, complete_report, done, fresh
from tests.tui.screens.job_at import at_step
from tests.tui.screens.services import app_in
from tests.tui.screens.shown import lines_of, text_of
from tui import theme
from tui.job_page import JobPage
from tui.screens.coach import CoachScreen
from tui.screens.dialogs import FormScreen
from tui.widgets.coach_panel import LINES, CoachPanel, coach_paragraphs
from tui.widgets.wrapping import wrapped

STEPS = ["f3", "f4", "f5", "f6", "f7", "f8", "f9"]
BELOW, BESIDE = (78, LINES), (42, 24)


def seen(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("room", [BELOW, BESIDE], ids=["below", "beside"])
def test_every_word_of_the_coach_has_room(room: tuple[int, int]) -> None:
    width, height = room
    panel = CoachPanel()
    cut: list[str] = []
    for key, entry in entries().items():
        panel.set_reactive(CoachPanel.paragraphs, tuple(coach_paragraphs(entry)))
        if len(panel.lines(width)) > height:
            cut.append(key)
    assert cut == []


async def test_the_coach_is_off_until_it_is_asked_for_and_stays_on_for_that_person(tmp_path: Path) -> None:
    app = app_in(tmp_path, complete_certificate())
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter")
        await pilot.pause()
        assert "Coach; F2 closes it" not in text_of(app)
        await pilot.press("f2")
        for step in STEPS:
            await pilot.press(step)
            await pilot.pause()
            assert "Coach; F2 closes it" in text_of(app), step
            assert "Rule" in text_of(app), step
            assert lines_of(app)[23].startswith(" F1 Help"), step
            assert "Esc Back" in lines_of(app)[23], step
            assert app.screen.max_scroll_y == 0, step
    assert [each.text for each in app.services.log.notes("coach")] == ["on"]
    again = app_in(tmp_path)
    async with again.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter")
        await pilot.pause()
        assert "Coach; F2 closes it" in text_of(again)
        await pilot.press("f2")
        assert "Coach; F2 closes it" not in text_of(again)
        await pilot.press("f2", "f2", "escape")
        await pilot.pause()
        assert "Coach; F2 closes it" not in text_of(again)


async def test_the_coach_follows_the_cursor_and_what_is_typed_stays_in_sight(tmp_path: Path) -> None:
    place = Place(section="boards", board="b1", circuit="c2", box="zs")
    async with at_step(JobPage.RESULTS, complete_certificate(), tmp_path, place=place) as at:
        await at.press("f2")
        assert entries()["circuit.zs"].what in seen(at.text)
        assert "Live test" in at.text
        await at.type("0.51")
        assert "0.51" in at.text
        await at.press("tab")
        assert at.box == "rcd_time"
        assert spelled_out(entries()["circuit.rcd_time"].what)[0] in seen(at.text)
        assert at.job.boards[0].circuits[0].zs.typed == "0.51"


@pytest.mark.parametrize("size", [(80, 24), (130, 40)])
@pytest.mark.parametrize("step", [JobPage.DETAILS, JobPage.CIRCUITS])
async def test_every_box_can_be_typed_into_while_the_coach_speaks(step, size: tuple[int, int], tmp_path: Path) -> None:
    async with at_step(step, fresh(FormSet.EIC), tmp_path, size=size) as at:
        await at.press("f2")
        boxes: list[Place | None] = []
        while at.screen.where() not in boxes and len(boxes) < 30:
            boxes.append(at.screen.where())
            await at.type("qz")
            assert "qz" in at.text, at.box
            await at.press("escape", "tab")
        assert len(boxes) > 10


async def test_a_broad_window_has_the_coach_beside_the_work(tmp_path: Path) -> None:
    async with at_step(JobPage.DETAILS, fresh(FormSet.EIC), tmp_path, size=(130, 30)) as at:
        await at.press("f2")
        line = next(line for line in lines_of(at.app) if "Why" in line)
        assert line.index("Why") > 80


async def test_an_inspection_item_is_explained_by_the_list_it_belongs_to(tmp_path: Path) -> None:
    async with at_step(JobPage.INSPECTION, complete_report(), tmp_path, place=Place(item="4.4")) as at:
        await at.press("f2")
        assert entries()["periodic.4.4"].what in seen(at.text)
        await at.press("down")
        assert entries()["periodic.4"].what in seen(at.text)


async def test_over_a_question_the_coach_opens_and_nothing_typed_is_lost(tmp_path: Path) -> None:
    app = app_in(tmp_path, complete_report())
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "f7", "r", *"Loose", "f2")
        await pilot.pause()
        assert isinstance(app.screen, CoachScreen)
        assert "C1 danger now" in text_of(app)
        await pilot.press("f2")
        assert isinstance(app.screen, FormScreen)
        assert "Loose" in text_of(app)


async def test_the_first_screen_keeps_question_answers_and_keys_in_sight_while_the_coach_speaks(tmp_path: Path) -> None:
    app = app_in(tmp_path, complete_certificate())
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f2")
        await pilot.pause()
        shown = text_of(app)
        for words in ("What was done?", "O Something else", "Coach; F2 closes it", "F1", "Rule", "A-0001"):
            assert words in shown
        await pilot.press("a", "y")
        await pilot.pause()
        shown = text_of(app)
        for words in ("How many existing circuits", "F1", "Two or more"):
            assert words in shown


async def test_the_list_of_jobs_found_leaves_room_for_the_coach(tmp_path: Path) -> None:
    app = app_in(tmp_path, complete_certificate())
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("ctrl+f", "f2")
        await pilot.pause()
        assert entries()["screen.find"].what in seen(text_of(app))
        assert "A-0001" in text_of(app)


@pytest.mark.parametrize("danger", dangers(), ids=lambda danger: danger.id)
def test_every_caution_has_room_whole_on_two_lines_of_the_panel(danger: Danger) -> None:
    assert len(wrapped(f"{theme.SIGN_SNAG} {danger.says}", 78)) <= 2


async def test_a_caution_stands_in_panel_and_coach_at_its_box_and_not_at_the_next(tmp_path: Path) -> None:
    fuses = Enter(place=Place(section="boards", board="b1", circuit="c2", box="device_standard"), text="BS 3036")
    place = Place(section="boards", board="b1", box="location")
    async with at_step(JobPage.DETAILS, done(complete_report(), fuses), tmp_path, place=place) as at:
        said = "! Boards from before 2000 may hold asbestos"
        assert said in seen(at.text)
        await at.press("f2")
        assert seen(at.text).count("asbestos register before the cover comes off") == 2
        assert "Control of Asbestos Regulations 2012" in seen(at.text)
        await at.press("tab")
        assert "asbestos" not in at.text


async def test_the_coach_speaks_of_the_question_that_is_asked(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f2")
        await pilot.pause()
        assert entries()["question.done"].what in seen(text_of(app))
        await pilot.press("a")
        await pilot.pause()
        assert entries()["question.own_work"].what in seen(text_of(app))
