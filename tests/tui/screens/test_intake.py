"""The first screen leads from what was done to the right papers, or back to a job."""

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from domain.forms.form_set import FormSet
from domain.job.job import Job
from domain.place import Place
from tests.builders import AT, INSPECTOR, complete_certificate, complete_minor_works, entered, fresh, signed, snagged
from tests.tui.screens.job_at import step_on
from tests.tui.screens.services import app_in, services_in
from tests.tui.screens.shown import lines_of, text_of
from tui.app import OhmfolioApp
from tui.job_page import JobPage
from tui.router import screen_for
from tui.screens.decision import DecisionScreen
from tui.screens.find import FindScreen
from tui.screens.intake import IntakeScreen

BRANCHES = [
    ("ny", FormSet.EIC),
    ("by", FormSet.EIC),
    ("ay1y", FormSet.MEIWC),
    ("ay2", FormSet.EIC),
    ("i", FormSet.EICR),
    ("nn", FormSet.EICR),
]


@pytest.mark.parametrize(("keys", "form_set"), BRANCHES)
async def test_answers_lead_to_papers_with_reasons_before_anything_is_typed(
    keys: str, form_set: FormSet, tmp_path: Path
) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press(*keys)
        assert isinstance(app.screen, DecisionScreen)
        shown = text_of(app)
        assert form_set.profile.title in shown
        for other in set(FormSet) - {form_set}:
            assert f"Not {other}" in shown or f"Or {other}" in shown
        assert app.services.log.line("A-0001") is None
        await pilot.press("enter")
        await pilot.pause()
        assert step_on(app) is JobPage.DETAILS
        assert app.services.log.line("A-0001") is None
        await pilot.press("O")
        await pilot.pause()
    job = kept(app, "A-0001")
    assert job.chosen.form_set is form_set
    assert not job.chosen.is_override
    assert job.chosen.answers.done is not None


async def test_capital_letters_answer_too(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("I")
        assert isinstance(app.screen, DecisionScreen)


async def test_every_way_on_from_the_first_screen_is_named_in_eighty_columns(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)):
        foot = lines_of(app)[-1]
        assert [key for key in ("F1 Help", "/ Find", "F4 Due", "F5 Registers", "F6 Practice") if key not in foot] == []
        assert "Ctrl+X Leave" in foot


async def test_answers_can_be_picked_with_the_cursor(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("down", "down", "down", "enter")
        assert FormSet.EICR.profile.title in text_of(app)


async def test_escape_goes_back_a_question_and_keeps_every_answer(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("a", "y", "2", "escape", "escape", "escape")
        assert isinstance(app.screen, IntakeScreen)
        assert [line for line in lines_of(app) if line.startswith(">A ")]
        await pilot.press("enter", "enter")
        assert [line for line in lines_of(app) if line.startswith(">2 ")]
        await pilot.press("escape", "escape", "escape")
        assert "This is the first question" in text_of(app)


async def test_a_running_line_says_where_the_answers_lead(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        assert "any of the three form sets" in text_of(app)
        await pilot.press("a", "y")
        so_far = " ".join(text_of(app).split())
        assert FormSet.MEIWC.profile.title in so_far
        assert FormSet.EICR.profile.title not in so_far


async def test_other_papers_than_advised_need_a_reason_that_is_kept(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("a", "y", "1", "y", "d", "e", "enter", "enter")
        assert "Because is needed" in text_of(app)
        await pilot.press(*"Client wants schedules", "enter")
        assert "Client wants schedules" in text_of(app)
        await pilot.press("enter")
        await pilot.pause()
    chosen = kept(app, "A-0001").chosen
    assert (chosen.form_set, chosen.advised) == (FormSet.EIC, FormSet.MEIWC)
    assert chosen.because == "Client wants schedules"


async def test_where_no_form_set_is_needed_no_job_is_started_unless_somebody_says_why(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("o", "k")
        assert "No form set of BS 7671 is required" in text_of(app)
        await pilot.press("enter")
        assert isinstance(app.screen, DecisionScreen)
        assert app.services.log.line("A-0001") is None
        await pilot.press("d", "r", "enter", *"A report was asked for", "enter", "enter")
        await pilot.pause()
    chosen = kept(app, "A-0001").chosen
    assert (chosen.form_set, chosen.because) == (FormSet.EICR, "A report was asked for")


async def test_work_that_must_not_go_ahead_starts_its_papers_only_after_a_question(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("r", "e", "y")
        await pilot.pause()
        assert "must not go ahead" in text_of(app)
        await pilot.press("enter")
        assert "so no job is started" in text_of(app)
        await pilot.press("d", "m", "enter", *"cpc provided since", "enter", "enter", "n")
        assert app.services.log.line("A-0001") is None
        assert isinstance(app.screen, DecisionScreen)
        await pilot.press("enter", "y")
        await pilot.pause()
    assert kept(app, "A-0001").chosen.because == "cpc provided since"


async def test_firm_and_instruments_are_carried_over_and_readings_never(tmp_path: Path) -> None:
    before = complete_certificate()
    app = app_in(tmp_path, before)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("i", "enter", "pagedown", "A")
        await pilot.pause()
    job = kept(app, "A-0002")
    assert (job.firm, job.instruments) == (before.firm, before.instruments)
    (board,) = job.boards
    assert board.tested_by
    assert Place(section="boards", board=board.id, box="tested_by") in job.unconfirmed
    assert (board.model_copy(update={"tested_by": ""}),) == fresh(FormSet.EICR).boards
    assert job.client.name == ""


async def test_after_a_job_is_started_the_first_question_stands_again(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("n", "y", "enter", "O", "enter", "escape", "escape")
        await pilot.pause()
        assert isinstance(app.screen, IntakeScreen)
        assert "What was done?" in text_of(app)
        assert "A-0001" in text_of(app)


async def test_one_key_opens_the_job_one_was_in_last_where_one_left_it(tmp_path: Path) -> None:
    app = app_in(tmp_path, complete_certificate(sign=False), complete_minor_works())
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("down", "enter", "f7", "escape")
        await pilot.pause()
    again = app_in(tmp_path)
    async with again.run_test(size=(80, 24)) as pilot:
        assert [line for line in lines_of(again) if line.startswith(">A-0001")]
        await pilot.press("enter")
        await pilot.pause()
        assert "Nothing raised" in text_of(again)


async def test_coming_back_from_a_job_that_was_searched_for_the_cursor_is_on_that_job(tmp_path: Path) -> None:
    app = app_in(tmp_path, complete_certificate(), complete_minor_works())
    async with app.run_test(size=(80, 24)) as pilot:
        for number in ("A-0001", "A-0002", "A-0001"):
            await pilot.press("slash", *number, "enter")
            await pilot.pause()
            await pilot.press("escape", "escape")
            await pilot.pause()
            assert [line for line in lines_of(app) if line.startswith(">") and number in line]


async def test_the_list_says_how_each_job_stands(tmp_path: Path) -> None:
    app = app_in(tmp_path, snagged(complete_minor_works()), complete_minor_works(), fresh(FormSet.EIC))
    async with app.run_test(size=(80, 24)):
        shown = text_of(app)
    assert "! 1 open snag" in shown
    assert "✓ ready" in shown
    assert "no client yet" in shown


async def test_older_jobs_come_as_the_cursor_reaches_the_last(tmp_path: Path) -> None:
    app = with_many_jobs(tmp_path, 53)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("end", "end")
        await pilot.pause()
        await pilot.press("end")
        assert [line for line in lines_of(app) if line.startswith(">A-0001")]


async def test_searching_finds_by_words_as_they_are_typed(tmp_path: Path) -> None:
    other = entered(complete_minor_works(), {"name": "Ivo Brambling"}, section="client")
    app = app_in(tmp_path, complete_certificate(), other)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("slash", *"ivo bram")
        await pilot.pause()
        assert isinstance(app.screen, FindScreen)
        assert "Ivo Brambling" in text_of(app)
        assert "Zoë Fairweather" not in text_of(app)
        await pilot.press("enter")
        await pilot.pause()
        assert step_on(app) is JobPage.DETAILS
        assert "Ivo Brambling" in text_of(app)


async def test_searching_narrows_by_keys_and_by_filters_among_the_words(tmp_path: Path) -> None:
    app = app_in(tmp_path, snagged(complete_certificate()), signed(complete_minor_works()))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("ctrl+f", "ctrl+o")
        await pilot.pause()
        assert "A-0001" in text_of(app)
        assert "A-0002" not in text_of(app)
        await pilot.press("ctrl+o", "f4")
        await pilot.pause()
        assert "No job is like that" in text_of(app)
        await pilot.press("f4", *"snags:none")
        await pilot.pause()
        assert "A-0002" in text_of(app)
        await pilot.press("escape")
        assert isinstance(app.screen, IntakeScreen)


def with_many_jobs(home: Path, count: int) -> OhmfolioApp:
    services = services_in(home)
    for minutes in range(count):
        services.log.create(fresh(FormSet.EIC), who=INSPECTOR, at=AT + timedelta(minutes=minutes))
    services.log.close()
    return app_in(home)


async def test_a_job_left_before_anything_is_typed_takes_no_number(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("n", "y", "enter")
        await pilot.pause()
        assert "no number yet" in text_of(app)
        await pilot.press("f4", "f3", "escape")
        await pilot.pause()
        assert isinstance(app.screen, IntakeScreen)
        assert app.services.log.line("A-0001") is None
        await pilot.press("n", "y", "enter", *"Orla", "enter")
        await pilot.pause()
        assert "A-0001" in text_of(app)
    assert kept(app, "A-0001").client.name == "Orla"


async def test_a_draft_laid_aside_leaves_the_list_of_jobs_and_is_taken_up_from_its_own(tmp_path: Path) -> None:
    app = app_in(tmp_path, complete_minor_works())
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("delete")
        assert "A-0001 laid aside" in text_of(app)
        assert [line for line in lines_of(app) if line.lstrip("> ").startswith("A-0001  ")] == []
        await pilot.press("slash", *["f5"] * 6)
        assert "drafts laid aside" in text_of(app)
        await pilot.press("enter", "f9", "l")
        await pilot.pause()
        assert "Taken up again" in text_of(app)
    assert not kept(app, "A-0001").laid_aside


def kept(app: OhmfolioApp, number: str) -> Job:
    job = app.services.log.load(number)
    assert job is not None
    return job


async def test_who_mistyped_the_place_of_a_log_sees_it_until_a_job_is_kept_there(tmp_path: Path) -> None:
    app = OhmfolioApp(replace(services_in(tmp_path), began_in="/srv/mistyped"), screen_for)
    async with app.run_test(size=(80, 24)) as pilot:
        assert "A new job log begins in /srv/mistyped." in text_of(app)
        assert "Ctrl+X leaves" in text_of(app)
        await pilot.press(*"ny", "enter", *"Acme", "enter", "escape", "escape")
        assert isinstance(app.screen, IntakeScreen)
        assert "/srv/mistyped" not in text_of(app)
