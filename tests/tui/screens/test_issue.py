"""Signing, drafts, refusals, and the one way to an issued pack."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import pytest
from textual.pilot import Pilot

from domain.editing.commands import Choose
from domain.forms.choice.answers import Answers
from domain.forms.form_set import FormSet
from domain.job.job import Job
from domain.job.signature import Role, roles_for
from domain.place import Place
from domain.register.entries import Person
from tests.builders import (
    INSPECTOR,
    complete_certificate,
    complete_minor_works,
    complete_report,
    done,
    fresh,
    signed,
    snagged,
)
from tests.tui.screens.job_at import step_on
from tests.tui.screens.services import app_in
from tests.tui.screens.shown import lines_of, text_of
from tui.after_issue import copy_lines
from tui.app import OhmfolioApp
from tui.job_page import JobPage
from tui.screens.issue_text import about_issued
from tui.screens.issued import IssuedScreen


class AtIssue:
    """A person at the last step of a job."""

    def __init__(self, app: OhmfolioApp, pilot: Pilot[None], home: Path) -> None:
        self.app, self.pilot, self.home = app, pilot, home

    async def press(self, *keys: str) -> None:
        """Press keys, and wait for a paper that is being made."""
        await self.pilot.press(*keys)
        await self.app.workers.wait_for_complete()
        await self.pilot.pause()

    @property
    def text(self) -> str:
        return text_of(self.app)

    @property
    def said(self) -> str:
        return lines_of(self.app)[22].strip()

    def job(self, number: str = "A-0001") -> Job:
        job = self.app.services.log.load(number)
        assert job is not None
        return job


@asynccontextmanager
async def at_issue(job: Job, home: Path) -> AsyncIterator[AtIssue]:
    app = app_in(home, job)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "f9")
        await pilot.pause()
        assert step_on(app) is JobPage.ISSUE
        if job.signatures:
            app.naming.note(INSPECTOR)
        yield AtIssue(app, pilot, home)
    app.services.log.close()


async def test_a_part_is_signed_under_the_words_it_declares(tmp_path: Path) -> None:
    async with at_issue(complete_certificate(sign=False), tmp_path) as at:
        await at.press("enter")
        assert "I am responsible for the design" in at.text
        await at.press("enter")
        assert at.job().signatures == ()
        await at.press(*"Tam", "enter", *"Electrician", "enter")
        (signature,) = at.job().signatures
        assert (signature.role, signature.name, signature.position) == (Role.DESIGN, "Tam", "Electrician")
        assert "Tam, Electrician, 02/03/2026 16:30" in at.text
        assert "2 still to be signed" in at.said


async def test_one_person_signs_every_part_after_saying_yes(tmp_path: Path) -> None:
    async with at_issue(complete_certificate(sign=False), tmp_path) as at:
        await at.press("a", *"Tam", "ctrl+o", "n")
        assert at.job().signatures == ()
        await at.press("a", *"Tam", "ctrl+o", "y")
        assert [each.role for each in at.job().signatures] == list(roles_for(FormSet.EIC))
        assert "Press I to issue" in at.said


async def test_all_that_one_person_declares_is_said_before_they_sign_for_every_part(tmp_path: Path) -> None:
    async with at_issue(complete_certificate(sign=False), tmp_path) as at:
        await at.press("a")
        words = " ".join(at.text.split())
        assert all(f"responsible for the {part}" in words for part in ("design", "construction", "inspection"))


@pytest.mark.parametrize("form_set", [FormSet.EIC, FormSet.MEIWC])
async def test_whoever_signs_and_issues_is_told_what_building_control_and_the_distributor_are_owed(
    tmp_path: Path, form_set: FormSet
) -> None:
    job = complete_certificate(sign=False) if form_set is FormSet.EIC else complete_minor_works(sign=False)
    answers = {"done": "new-circuit", "nation": "England", "building": "house", "fitted": "ev", "demand_over": False}
    chosen = job.chosen.model_copy(update={"answers": Answers.model_validate(answers)})
    async with at_issue(signed(done(job, Choose(chosen=chosen))), tmp_path) as at:
        assert "Notify?" in at.text
        await at.press("tab", "pagedown")
        assert "Distributor" in at.text


async def test_nothing_is_signed_while_anything_else_is_open(tmp_path: Path) -> None:
    async with at_issue(snagged(complete_certificate(sign=False)), tmp_path) as at:
        await at.press("enter")
        assert at.said.startswith("✗ Not to be signed yet: One thing is still open. Snag 1 is open")
        await at.press("a")
        assert step_on(at.app) is JobPage.ISSUE


async def test_a_name_once_given_is_put_forward_to_the_same_person_on_the_next_job(tmp_path: Path) -> None:
    async with at_issue(complete_minor_works(sign=False), tmp_path) as at:
        await at.press("enter", *"Tam Orchard", "enter", "enter")
        assert at.job().signatures[0].name == "Tam Orchard"
        await at.press("f7", "r", *"Lid loose", "ctrl+o")
        assert at.job().snags[0].raised_by == "Tam Orchard"


async def test_a_report_is_signed_part_by_part(tmp_path: Path) -> None:
    async with at_issue(complete_report(sign=False), tmp_path) as at:
        await at.press("a")
        assert "signs for every part" not in at.text


async def test_a_signature_is_taken_back(tmp_path: Path) -> None:
    async with at_issue(complete_minor_works(), tmp_path) as at:
        await at.press("delete")
        assert at.job().signatures == ()
        assert "No longer signed" in at.said


async def test_a_draft_is_printed_at_any_time_and_never_over_another(tmp_path: Path) -> None:
    async with at_issue(fresh(FormSet.EIC), tmp_path) as at:
        await at.press("d", "enter")
        await at.press("d", "enter")
        drafts = sorted(path.name for path in (tmp_path / "packs").iterdir())
        assert drafts == ["A-0001-EIC-DRAFT-2.pdf", "A-0001-EIC-DRAFT.pdf"]
        assert "A-0001-EIC-DRAFT-2.pdf" in "".join(at.text.split())


async def test_a_draft_that_cannot_be_written_says_why(tmp_path: Path) -> None:
    (tmp_path / "packs").write_text("a file where the folder should be")
    async with at_issue(fresh(FormSet.EIC), tmp_path) as at:
        await at.press("d", "enter")
        assert at.said.startswith("✗ No draft:")


async def test_a_refusal_lists_every_reason_and_enter_goes_to_its_place(tmp_path: Path) -> None:
    async with at_issue(snagged(fresh(FormSet.EIC)), tmp_path) as at:
        reasons = len(at.app.screen.session.assessment.reasons)
        await at.press("i")
        assert f"Not issued: {reasons} reasons" in at.text
        assert at.job().issued is None
        await at.press("enter")
        assert step_on(at.app) is JobPage.RAISED


async def test_a_reason_further_down_leads_to_its_box(tmp_path: Path) -> None:
    async with at_issue(fresh(FormSet.EIC), tmp_path) as at:
        await at.press("i", "enter")
        assert step_on(at.app) is JobPage.DETAILS
        assert at.app.screen.where() == Place(section="client", box="name")


async def test_issuing_keeps_the_paper_and_puts_a_copy_where_asked(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    async with at_issue(complete_minor_works(), tmp_path) as at:
        await at.press("i", "ctrl+u", *"out", "enter")
        assert at.job().issued is not None
        copy = tmp_path / "out" / "A-0001-MEIWC"
        issued = at.app.services.log.issued("A-0001")
        assert issued is not None
        assert (copy / "A-0001-MEIWC.pdf").read_bytes() == Path(issued.kept).read_bytes()
        assert sorted(file.name for file in copy.iterdir()) == ["A-0001-MEIWC.html", "A-0001-MEIWC.pdf"]
        shown = "".join(at.text.split())
        assert issued.sha256 in shown
        told = [each.text for each in about_issued(at.job(), issued, str(copy), replaced=False)]
        assert any(each.startswith(copy_lines(copy)[0]) for each in told)
        assert "".join(issued.kept.split()) in shown
        assert "".join(str(copy).split()) in shown
        assert "complies" in at.text
        assert "The original goes to the person who ordered the work" in at.text


async def test_escape_issues_nothing(tmp_path: Path) -> None:
    async with at_issue(complete_minor_works(), tmp_path) as at:
        await at.press("i", "escape")
        assert at.job().issued is None


async def test_no_file_is_written_over_and_nothing_is_issued_then(tmp_path: Path) -> None:
    there = tmp_path / "packs" / "A-0001-MEIWC"
    there.parent.mkdir()
    there.write_text("older")
    async with at_issue(complete_minor_works(), tmp_path) as at:
        await at.press("i", "enter")
        assert "exists already, and nothing is written over" in " ".join(at.text.split())
        assert at.job().issued is None
        assert there.read_text() == "older"


async def test_a_copy_that_cannot_be_written_does_not_hide_that_the_paper_is_issued(tmp_path: Path) -> None:
    (tmp_path / "packs").write_text("a file where the folder should be")
    async with at_issue(complete_minor_works(), tmp_path) as at:
        await at.press("i", "enter")
        assert at.job().issued is not None
        assert at.said.startswith("✗ Issued and kept in the log, but no copy")


async def test_what_is_issued_is_not_signed_drafted_or_issued_again(tmp_path: Path) -> None:
    async with at_issue(complete_minor_works(), tmp_path) as at:
        await at.press("i", "enter")
        before = at.job()
        await at.press("delete", "d", "i", "enter")
        assert step_on(at.app) is JobPage.ISSUE
        assert at.job() == before


async def test_a_correction_is_a_new_document_that_names_the_one_it_replaces(tmp_path: Path) -> None:
    async with at_issue(complete_minor_works(), tmp_path) as at:
        await at.press("i", "enter")
        await at.press("c", *"wrong house", "enter")
        assert step_on(at.app) is JobPage.REVIEW
        assert at.app.screen.number == "A-0002"
        assert (at.job("A-0002").replaces, at.job("A-0002").replaces_because) == ("A-0001", "wrong house")
        assert at.job("A-0001").issued is not None


async def test_an_issued_paper_shows_when_its_job_is_opened_again(tmp_path: Path) -> None:
    async with at_issue(complete_report(), tmp_path) as at:
        await at.press("i", "enter", "escape", "enter")
        assert isinstance(at.app.screen, IssuedScreen)
        assert "A-0001 issued on 2 March 2026" in at.text
        assert "satisfactory" in at.text


async def test_an_issued_pack_is_put_into_a_folder_again_and_a_file_is_told_as_issued_or_not(tmp_path: Path) -> None:
    async with at_issue(complete_minor_works(), tmp_path) as at:
        await at.press("i", "enter")
        await at.press("p", "ctrl+u", *str(tmp_path / "again"), "enter")
        again = tmp_path / "again" / "A-0001-MEIWC"
        assert sorted(file.name for file in again.iterdir()) == ["A-0001-MEIWC.html", "A-0001-MEIWC.pdf"]
        await at.press("p", "enter")
        assert "exists already" in " ".join(at.text.split())
        note = tmp_path / "note.pdf"
        note.write_text("no paper")
        await at.press("v", "ctrl+u", *str(note), "enter")
        assert "It is not a PDF" in " ".join(at.text.split())


async def test_the_name_on_the_paper_is_asked_once_and_is_not_the_login(tmp_path: Path) -> None:
    async with at_issue(complete_minor_works(), tmp_path) as at:
        at.app.services.log.add_note("name", "", who=at.app.services.who, at=at.app.services.now())
        await at.press("i")
        assert "Who issues this paper?" in at.text
        await at.press("ctrl+u", *"Ida Fennel", "enter")
        assert "Folder for the pack" in at.text
        await at.press("enter")
        issued = at.job().issued
        assert issued is not None
        assert issued.by == "Ida Fennel"


async def test_whoever_set_a_signing_phrase_signs_with_it_and_nobody_sees_it(tmp_path: Path) -> None:
    async with at_issue(complete_minor_works(sign=False), tmp_path) as at:
        log = at.app.services.log
        log.register(Person(name=INSPECTOR, signs=(Role.MINOR_WORKS,)), who="office", at=at.app.services.now())
        assert log.set_phrase(INSPECTOR, "nine grey herons", who="office", at=at.app.services.now()) == ""
        await at.press("enter", *INSPECTOR, "enter", "enter", *"nine grey hens")
        assert "nine grey hens" not in at.text
        await at.press("enter")
        assert "That is not the signing phrase" in at.said
        assert not at.job().signatures
        await at.press("enter", "ctrl+u", *INSPECTOR, "enter", "enter", *"nine grey herons", "enter")
        assert at.job().signatures
        assert "anybody" not in at.said
