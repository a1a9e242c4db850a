"""A job of a firm with laptops on the screen: where it is, what of it the office has not heard, and who may type."""

from pathlib import Path

import pytest

from domain.laptops.operation import Act
from tests.builders import AT, complete_minor_works
from tests.tui.screens.job_at import at_step
from tui.job_page import JobPage


async def test_a_job_that_is_out_says_so_above_its_steps_and_takes_no_letter(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    async with at_step(JobPage.DETAILS, complete_minor_works(), tmp_path) as at:
        laptops = at.log.laptops
        laptops.enrol("HE", device="he00", person="Hester", at=AT)
        laptops.take_out(at.number, to="HE", at=AT)
        at.screen.session.take(at.job)
        before = at.job

        await at.press("enter")
        await at.type("x", "enter")

        assert f"out with Hester since {AT:%H:%M}, read only" in at.line_with("A-0001")
        assert "out with Hester" in at.said
        assert at.job == before
        laptops.declare(Act.LOST, "HE", at=AT)
