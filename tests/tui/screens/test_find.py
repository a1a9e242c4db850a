"""The list of jobs found stays as it was left."""

from pathlib import Path

from tests.builders import complete_certificate, complete_minor_works, complete_report, entered
from tests.tui.screens.job_at import step_on
from tests.tui.screens.services import app_in
from tests.tui.screens.shown import lines_of, text_of
from tui.job_page import JobPage
from tui.screens.find import FindScreen


async def test_back_from_a_job_comes_to_the_list_it_was_opened_from_with_words_filters_and_cursor(
    tmp_path: Path,
) -> None:
    others = [entered(complete_minor_works(), {"name": f"Brambling {each}"}, section="client") for each in "AB"]
    app = app_in(tmp_path, complete_certificate(), *others, complete_report())
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("slash", "ctrl+o", "ctrl+o", *"brambling", "down")
        await pilot.pause()
        before = lines_of(app)
        assert [line for line in before if line.startswith(">A-0002")]
        await pilot.press("enter")
        await pilot.pause()
        assert step_on(app) is JobPage.DETAILS
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(app.screen, FindScreen)
        assert lines_of(app) == before
        # From a job, the same job found is come back to and not opened once more.
        await pilot.press("enter", "ctrl+f", *"a-0002", "enter", "enter")
        await pilot.pause()
        assert "Brambling A" in text_of(app)
        assert isinstance(app.screen_stack[-2], FindScreen)
        assert step_on(app) is JobPage.DETAILS
