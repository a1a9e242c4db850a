"""An issued job is read on every step and changed on none."""

from pathlib import Path

import pytest

from domain.forms.form_set import FormSet
from domain.inspection.observation import Code
from tests.builders import complete_certificate, complete_report
from tests.tui.screens.desks import app_in
from tests.tui.screens.shown import text_of

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
    desk = app.desk
    desk.log.issue("A-0001", by=desk.who, at=desk.now(), bind=desk.bind)
    before = desk.log.load("A-0001")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", step, "end")
        for key in keys:
            await pilot.press(key)
            await pilot.pause()
            assert not app.screen.is_modal, text_of(app)
            assert desk.log.load("A-0001") == before
    desk.log.close()
