"""An issued job is read on every step and changed on none."""

import email
from email.policy import default
from pathlib import Path

import pytest

from domain.forms.form_set import FormSet
from domain.inspection.observation import Code
from domain.job.exchange import job_from_json
from domain.job.start import as_draft
from tests.builders import complete_certificate, complete_report
from tests.tui.screens.job_at import step_on
from tests.tui.screens.services import app_in
from tests.tui.screens.shown import text_of
from tui.job_page import JobPage
from tui.screens.issued import IssuedScreen

CHANGES = [
    ("f3", ("a", "enter", "delete")),
    ("f4", ("a", "enter", "delete")),
    ("f5", ("a", "enter", "delete")),
    ("f6", ("y", "n", "2", "v", "r", "a", "m", "enter", "delete")),
    ("f7", ("r", "enter", "c", "o", "delete", "w")),
    ("f8", ("r", "e", "enter")),
    ("f9", ("delete", "a", "i", "d", "enter")),
]


@pytest.mark.parametrize(("step", "keys"), CHANGES)
@pytest.mark.parametrize("form_set", [FormSet.EIC, FormSet.EICR])
async def test_no_key_changes_an_issued_job(
    step: str, keys: tuple[str, ...], form_set: FormSet, tmp_path: Path
) -> None:
    job = complete_report(Code.C3) if form_set is FormSet.EICR else complete_certificate()
    app = app_in(tmp_path, job)
    services = app.services
    services.log.issue("A-0001", by=services.who, at=services.now(), bind=services.bind)
    before = services.log.load("A-0001")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", step, "end")
        for key in keys:
            await pilot.press(key)
            await pilot.pause()
            assert not app.screen.is_modal, text_of(app)
            assert services.log.load("A-0001") == before
    services.log.close()


async def test_an_issued_paper_opens_on_a_page_of_its_own_that_does_all_that_can_still_be_done(tmp_path: Path) -> None:
    app = app_in(tmp_path, complete_report(Code.C2))
    services = app.services
    services.log.issue("A-0001", by=services.who, at=services.now(), bind=services.bind)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter")
        await pilot.pause()
        shown = text_of(app)
        assert isinstance(app.screen, IssuedScreen)
        assert f"A-0001 issued on 2 March 2026, 16:30 GMT by {services.who}: unsatisfactory" in " ".join(shown.split())
        assert "Next due 2 March 2031" in shown
        assert "SHA-256" in shown
        await pilot.press("r")
        await pilot.pause()
        assert "C2" in text_of(app)
        await pilot.press("escape", "t")
        await pilot.pause()
        assert "Issued" in text_of(app)
        await pilot.press("escape", "h", "enter")
        await pilot.pause()
        assert as_draft(job_from_json((services.packs / "A-0001.json").read_bytes())) == as_draft(
            services.log.load("A-0001")
        )
        await pilot.press("h", "enter")
        await pilot.pause()
        assert "exists already" in text_of(app)
        await pilot.press("m", "enter")
        await app.workers.wait_for_complete()
        await pilot.pause()
        pack = services.packs / "A-0001-EICR"
        letter = email.message_from_bytes(pack.with_suffix(".eml").read_bytes(), policy=default)
        attached = {part.get_filename() for part in letter.iter_attachments()}
        assert attached == {each.name for each in pack.iterdir()}
        await pilot.press("l")
        await pilot.pause()
        assert step_on(app) is JobPage.DETAILS
        await pilot.press("escape", "c", *"misread", "enter")
        await pilot.pause()
        assert "A-0002 will replace A-0001" in text_of(app)
    services.log.close()
