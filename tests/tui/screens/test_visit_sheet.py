"""Ctrl+T shows the visit sheet of a job, and prints it."""

from pathlib import Path

from tests.builders import complete_report
from tests.tui.screens.job_at import at_step
from tests.tui.screens.shown import text_of
from tui.job_page import JobPage
from tui.screens.job_screen import JobScreen


async def test_the_visit_sheet_is_read_and_printed_and_leads_back_to_the_job(tmp_path: Path) -> None:
    async with at_step(JobPage.DETAILS, complete_report(), tmp_path) as at:
        await at.pilot.press("ctrl+t")
        await at.pilot.pause()
        assert "Isolation points" in text_of(at.app)
        assert "Hall cupboard; BS EN 60947-3" in text_of(at.app)
        await at.pilot.press("p", "enter")
        await at.app.workers.wait_for_complete()
        await at.pilot.pause()
        assert (tmp_path / "packs" / f"{at.number}-visit.pdf").read_bytes().startswith(b"visit sheet of")
        await at.pilot.press("escape")
        await at.pilot.pause()
        assert isinstance(at.app.screen, JobScreen)


async def test_on_the_schedules_where_its_key_turns_enter_the_visit_sheet_is_picked_by_its_name(tmp_path: Path) -> None:
    async with at_step(JobPage.CIRCUITS, complete_report(), tmp_path) as at:
        await at.pilot.press("ctrl+p", *"visit", "enter")
        await at.pilot.pause()
        assert "Isolation points" in text_of(at.app)
