"""Practice by keys alone: answered by a number, judged at once, left and taken up again with nothing lost."""

from pathlib import Path

import pytest

from domain.coach.answered import TOPIC
from domain.coach.case import Case, cases
from domain.coach.entry import entry_for
from domain.coach.kept import answers_of
from domain.coach.sitting import Sitting
from tests.builders import AT, INSPECTOR
from tests.tui.screens.services import app_in
from tests.tui.screens.shown import lines_of, text_of
from tui.screens.intake import IntakeScreen
from tui.screens.practice import PracticeScreen
from tui.screens.practice_text import question_of, verdict_on
from tui.widgets.coach_panel import LINES
from tui.widgets.text_page import ReadingPage

HEAD, FOOT, WIDTH, HEIGHT = 2, 2, 80, 24
FIRST = cases()[0]


def keys_to(case: Case) -> tuple[str, str]:
    """The number of the right answer, and of a wrong one."""
    meanings = list(case.answers)
    wrong = next(meaning for meaning in meanings if not case.is_right(meaning))
    return str(meanings.index(case.right) + 1), str(meanings.index(wrong) + 1)


@pytest.mark.parametrize("case", cases(), ids=lambda case: case.id)
def test_a_case_fits_the_screen_with_the_coach_and_its_answer_without_scrolling(case: Case) -> None:
    page = ReadingPage()
    page.set_reactive(ReadingPage.paragraphs, tuple(question_of(Sitting(who="Ann", answered=(), case=case))))
    assert len(page.lines(WIDTH)) <= HEIGHT - HEAD - FOOT - LINES - 1
    assert entry_for((f"screen.practice.{case.kind.name.casefold()}",)) != entry_for(("screen.practice",))
    for key in keys_to(case):
        sitting = Sitting(who="Ann", answered=(), case=case)
        given = sitting.answering(key)
        assert given is not None
        sitting = sitting.with_answer(given, AT)
        page.set_reactive(ReadingPage.paragraphs, (*question_of(sitting), *verdict_on(sitting, AT.date())))
        assert len(page.lines(WIDTH)) + 1 <= HEIGHT - HEAD - FOOT


async def test_a_newcomer_answers_case_after_case_and_goes_on_where_they_left(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    right, wrong = keys_to(FIRST)
    async with app.run_test(size=(WIDTH, HEIGHT)) as pilot:
        await pilot.press("f6")
        await pilot.pause()
        assert "Who practises?" in text_of(app)
        await pilot.press(*["backspace"] * len(INSPECTOR), *"Wren Tansy", "enter")
        await pilot.pause()
        assert FIRST.ask in text_of(app)
        assert "Coach; F2 closes it" in text_of(app)
        await pilot.press("enter", "9", wrong, right)
        await pilot.pause()
        shown = " ".join(text_of(app).split())
        assert f"{wrong} ✗ {FIRST.answers[tuple(FIRST.answers)[int(wrong) - 1]]} (yours)" in shown
        assert f"{right} ✓ {FIRST.right_words}" in shown
        for words in ("✗ Wrong", FIRST.why, FIRST.source.table, "today 1, 0 right", "Enter goes on"):
            assert words in shown, words
        await pilot.press("enter")
        await pilot.pause()
        assert "the same visit goes on" in text_of(app)
        second = cases()[1]
        await pilot.press(keys_to(second)[0])
        await pilot.pause()
        assert "✓ Right" in text_of(app)
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(app.screen, IntakeScreen)
        assert "Coach; F2 closes it" not in text_of(app)
    assert [each.who for each in app.services.log.notes(TOPIC)] == ["Wren Tansy"] * 2
    again = app_in(tmp_path)
    async with again.run_test(size=(WIDTH, HEIGHT)) as pilot:
        await pilot.press("f6")
        await pilot.pause()
        assert "Practised here before: Wren Tansy" in " ".join(text_of(again).split())
        await pilot.press(*["backspace"] * len(INSPECTOR), *"wren  tansy", "enter")
        await pilot.pause()
        assert "today 2, 1 right" in text_of(again)
        assert cases()[2].ask in text_of(again)
        await pilot.press("f2")
        assert "Coach; F2 closes it" not in text_of(again)


async def test_the_summary_is_shown_and_made_a_page_in_a_folder(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(WIDTH, HEIGHT)) as pilot:
        await pilot.press("f6", "enter", keys_to(FIRST)[1], "s")
        await pilot.pause()
        assert f"Practice of {INSPECTOR}" in text_of(app)
        assert "not an assessment of competence" in text_of(app)
        await pilot.press("p", "enter")
        await app.workers.wait_for_complete()
        await pilot.pause()
        assert lines_of(app)[22].startswith(" Summary: ")
        assert (tmp_path / "packs" / "practice-summary.pdf").read_bytes() == f"summary of {INSPECTOR}".encode()
        await pilot.press("escape")
        assert isinstance(app.screen, PracticeScreen)


async def test_when_all_cases_are_answered_it_says_when_the_next_come(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    sitting = Sitting.begun(INSPECTOR, (), AT.date())
    while sitting.case:
        given = sitting.answering(keys_to(sitting.case)[0])
        assert given is not None
        app.services.log.add_note(TOPIC, given.model_dump_json(), who=INSPECTOR, at=AT)
        sitting = sitting.with_answer(given, AT).going_on(AT.date())
    assert len(answers_of(app.services.log, INSPECTOR, AT)) == len(cases())
    async with app.run_test(size=(WIDTH, HEIGHT)) as pilot:
        await pilot.press("f6", "enter", "1", "enter")
        await pilot.pause()
        assert "All cases are answered for today" in text_of(app)
        assert "The next ones come on" in text_of(app)
    assert len(app.services.log.notes(TOPIC)) == len(cases())
