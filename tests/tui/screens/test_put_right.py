"""An office puts a report right by keys: a job started, another firm's paper, a finding of nothing wrong, the letter."""

from pathlib import Path

from domain.editing.commands import Choose, Observe
from domain.forms.choice.answers import Answers
from domain.forms.form_set import FormSet
from domain.gate.assessment import assess
from domain.inspection.observation import Code
from domain.log.put_right.remedial_status import Stage
from domain.sheets import sheets_of
from tests.builders import AT, INSPECTOR, complete_minor_works, complete_report, done
from tests.storage.issuing import issued_in
from tests.tui.screens.job_at import step_on
from tests.tui.screens.services import app_in
from tests.tui.screens.shown import text_of
from tui.job_page import JobPage
from tui.router import screen_for
from tui.routes import ToJob
from tui.screens.put_right import PutRightScreen


async def test_a_report_is_put_right_by_a_job_a_paper_and_a_finding_and_confirmed_by_a_letter(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    log = app.services.log
    report = log.load(issued_in(log, complete_report(Code.C1, Code.C2, Code.FI)).number)

    def stages() -> list[Stage]:
        return [item.stage for item in log.remedial_status(report).items]

    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("slash", *["f5"] * 5, "f6")
        await pilot.pause()
        assert isinstance(app.screen, PutRightScreen)
        await pilot.press("s", "a", "y", "1", "y", "enter")
        await pilot.pause()
        assert step_on(app) is JobPage.DETAILS
        job = app.screen.job
        assert (job.form_set, job.client) == (FormSet.MEIWC, report.client)
        assert "coded C1" in job.work.description
        await pilot.press("escape")
        await pilot.pause()
        assert "0 of 3 put right" in text_of(app)
        await pilot.press("down", "enter", "p", "enter", *"QN-118", "enter", *"Quenby Electrics", "ctrl+o")
        await pilot.press("down", "enter", "n", "ctrl+o")
        assert "Say what was looked into" in text_of(app)
        await pilot.press(*"Traced", "ctrl+o", "l")
        await pilot.pause()
        assert stages() == [Stage.UNDER_WAY, Stage.CLOSED, Stage.CLOSED]
        assert "once everything is put right" in text_of(app)
        await pilot.press("home", "enter", "p", "enter", "7", "enter", "Q", "ctrl+o", "l", "enter")
        await app.workers.wait_for_complete()
        await pilot.pause()
        assert log.line(report.number).put_right
        letter = app.services.packs / f"{report.number}-put-right.pdf"
        assert letter.read_bytes() == f"letter on {report.number}".encode()
        await pilot.press("escape")
        await pilot.pause()
        assert "No job is in this list" in text_of(app)
    log.close()


async def test_issuing_the_last_certificate_puts_the_report_right(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    log = app.services.log
    report = log.load(issued_in(log, complete_report(Code.C2)).number)
    number = log.create(complete_minor_works(), who=INSPECTOR, at=AT).number
    async with app.run_test(size=(80, 24)) as pilot:
        await app.push_screen(PutRightScreen(report))
        await pilot.press("enter", "c", "enter", *number.casefold(), "ctrl+o")
        await app.push_screen(screen_for(ToJob(number, JobPage.ISSUE), app.services))
        await pilot.pause()
        await pilot.press("i", "enter", "enter")
        await app.workers.wait_for_complete()
        await pilot.pause()
        assert f"Report put right by it: {report.number}" in text_of(app)
        assert log.line(report.number).put_right
        await pilot.press("escape")
        await pilot.pause()
        assert "has been put right" in text_of(app)
    log.close()


async def test_an_accessory_exchanged_like_for_like_closes_an_observation_without_a_certificate(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    log = app.services.log
    report = log.load(issued_in(log, complete_report(Code.C2)).number)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("slash", *["f5"] * 5, "f6")
        await pilot.pause()
        await pilot.press("enter", "a", "ctrl+o")
        assert "Say what was done, and who did it" in text_of(app)
        await pilot.press(*"New faceplate", "ctrl+o")
        await pilot.pause()
        (item,) = log.remedial_status(report).items
        assert item.stage is Stage.CLOSED
        assert item.paper == f"work of {INSPECTOR}, 2 March 2026, which needs no certificate: New faceplate"
        assert "No certificate is required" in item.says
        assert log.line(report.number).put_right
    log.close()


async def test_another_firms_report_is_kept_as_seen_elsewhere_followed_and_never_issued(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press(
            "o",
            "y",
            "enter",
            *"Quenby Electrics",
            "enter",
            *"QE-7",
            "enter",
            "enter",
            "enter",
            *"1 Mill Lane",
            "ctrl+o",
        )
        await pilot.pause()
        assert step_on(app) is JobPage.RAISED
        assert "Report QE-7 of Quenby Electrics" in text_of(app)
        assert "gap" not in text_of(app)
        number = app.screen.job.number
        finding = Observe(finding="No main bonding to the gas", code=Code.C2, where="Meter cupboard")
        app.services.log.edit(number, finding, who=app.services.who, at=app.services.now())
        await pilot.press("escape", "slash", *"seen elsewhere")
        await pilot.pause()
        await pilot.press("f6")
        await pilot.pause()
        assert isinstance(app.screen, PutRightScreen)
        assert "No main bonding" in text_of(app)
        await pilot.press("enter", "p", "enter", *"MW-3", "enter", *"Quenby Electrics", "ctrl+o")
        await pilot.pause()
        assert app.services.log.line(number).put_right
    report = app.services.log.load(number)
    assert [reason.id for reason in assess(report).reasons] == ["seen-elsewhere"]
    assert "QE-7" in repr(sheets_of(report)[0])


async def test_the_certificate_beside_a_report_of_the_same_visit_is_begun_with_one_key(tmp_path: Path) -> None:
    report = complete_report()
    told = Answers.model_validate({"done": "inspection-and-work", "put_right": "new"})
    app = app_in(tmp_path, done(report, Choose(chosen=report.chosen.model_copy(update={"answers": told}))))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "f7", "b")
        await pilot.pause()
        begun = app.screen.job
        assert (begun.number, begun.form_set, begun.client) == ("A-0002", FormSet.EIC, report.client)
        assert begun.supply.system == report.supply.system
