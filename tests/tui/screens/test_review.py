"""The review says everything that is found or missing, leads to its place, and changes how a job is worked."""

from pathlib import Path

from domain.editing.commands import Choose, RaiseSnag
from domain.edition import Edition
from domain.forms.choice.chosen import ChosenPapers
from domain.forms.form_set import FormSet
from domain.gate.assessment import assess
from domain.inspection.observation import Code
from domain.job.job import Job
from domain.job.signature import Role
from domain.place import Place
from tests.builders import (
    INSPECTOR,
    ON,
    complete_certificate,
    complete_minor_works,
    complete_report,
    done,
    enter,
    entered,
    fresh,
    snagged,
)
from tests.tui.screens.job_at import at_step, step_on
from tui.job_page import JobPage, step_of

BAD_INSULATION = {"ir_earth": "0.3"}
HIGH_ZS = {"zs": "2.4"}


def failing(form_set: FormSet = FormSet.EIC) -> Job:
    whole = complete_report(sign=False) if form_set is FormSet.EICR else complete_certificate(sign=False)
    return entered(whole, BAD_INSULATION, board="b1", circuit="c2")


async def test_a_failing_reading_stands_first_with_measured_limit_and_source(tmp_path: Path) -> None:
    async with at_step(JobPage.REVIEW, failing(), tmp_path) as at:
        assert at.line_with(">").startswith(">✗ DB1, circuit 1 Kitchen sockets, Insulation, live to earth")
        assert "Measured 0.3 MΩ, limit 1.0 MΩ" in at.text
        assert "Table 64" in at.text
        await at.press("enter")
        assert step_on(at) is JobPage.RESULTS
        assert at.screen.where() == Place(section="boards", board="b1", circuit="c2", box="ir_earth")


async def test_an_open_snag_leads_to_the_snagging_list(tmp_path: Path) -> None:
    async with at_step(JobPage.REVIEW, snagged(complete_certificate(sign=False)), tmp_path) as at:
        assert "Open snags (1)" in at.text
        await at.press("enter")
        assert step_on(at) is JobPage.RAISED


async def test_a_missing_box_leads_to_it(tmp_path: Path) -> None:
    async with at_step(JobPage.REVIEW, fresh(FormSet.MEIWC), tmp_path) as at:
        assert "Client: to be filled in" in " ".join(at.line_with(">").split())
        await at.press("enter")
        assert step_on(at) is JobPage.DETAILS
        assert at.screen.where() == Place(section="client", box="name")


async def test_a_missing_signature_leads_to_signing(tmp_path: Path) -> None:
    async with at_step(JobPage.REVIEW, complete_certificate(sign=False), tmp_path) as at:
        await at.press("enter")
        assert step_on(at) is JobPage.ISSUE
        assert at.screen.where() == Place(section="signatures", box=Role.DESIGN)


async def test_a_snag_is_raised_from_a_failing_reading_with_its_place(tmp_path: Path) -> None:
    async with at_step(JobPage.REVIEW, failing(), tmp_path) as at:
        await at.press("r", "ctrl+o")
        (snag,) = at.job.snags
        assert snag.about == Place(section="boards", board="b1", circuit="c2", box="ir_earth")
        assert "0.3 MΩ" in snag.what
        assert "Kitchen sockets" in snag.where


async def test_on_a_report_a_failing_reading_becomes_an_observation_once_it_has_a_code(tmp_path: Path) -> None:
    async with at_step(JobPage.REVIEW, failing(FormSet.EICR), tmp_path) as at:
        assert "No observation yet (R)." in " ".join(at.text.split())
        await at.press("r", "ctrl+o")
        assert at.job.observations == ()
        await at.press("2", "ctrl+o")
        (observation,) = at.job.observations
        assert observation.code is Code.C2
        assert observation.about == Place(section="boards", board="b1", circuit="c2", box="ir_earth")
        assert observation.answers == (observation.about,)
        assert "Observation 1 answers it." in " ".join(at.text.split())
        assert "unsatisfactory (1 C2)" in at.text


async def test_what_a_check_asks_is_explained_with_a_reason(tmp_path: Path) -> None:
    job = entered(complete_certificate(sign=False), HIGH_ZS, board="b1", circuit="c2")
    async with at_step(JobPage.REVIEW, job, tmp_path) as at:
        at.screen.part.go_to(Place(section="boards", board="b1", circuit="c2", box="zs"))
        await at.press("e")
        assert "Lifted by a reason that says that it was measured again" in " ".join(at.text.split())
        await at.type("Fault protection by the RCD is the design", "ctrl+o")
        (explanation,) = at.job.explanations
        assert explanation.reason == "Fault protection by the RCD is the design"
        assert "Explained (1)" in at.text


async def test_what_fails_cannot_be_explained_away(tmp_path: Path) -> None:
    async with at_step(JobPage.REVIEW, failing(), tmp_path) as at:
        await at.press("e")
        assert "what fails is put right" in at.said


async def test_papers_are_changed_only_with_a_reason(tmp_path: Path) -> None:
    async with at_step(JobPage.REVIEW, fresh(FormSet.EIC), tmp_path, place=Place(section="chosen")) as at:
        await at.press("enter", "m", "ctrl+o")
        assert at.job.form_set is FormSet.EIC
        await at.type("One socket only", "ctrl+o")
        assert at.job.chosen == ChosenPapers(form_set=FormSet.MEIWC, because="One socket only")
        assert FormSet.MEIWC.profile.title in at.text


async def test_papers_that_cannot_hold_the_job_are_declined_with_the_reason(tmp_path: Path) -> None:
    async with at_step(JobPage.REVIEW, complete_certificate(), tmp_path, place=Place(section="chosen")) as at:
        await at.press("enter", "m", "tab")
        await at.type("Smaller form", "ctrl+o")
        assert "Minor works covers one circuit" in at.said
        assert at.job.form_set is FormSet.EIC


async def test_how_the_papers_were_chosen_is_shown(tmp_path: Path) -> None:
    chosen = ChosenPapers(form_set=FormSet.EIC, advised=FormSet.MEIWC, because="The client asked")
    job = done(fresh(FormSet.EIC), Choose(chosen=chosen))
    async with at_step(JobPage.REVIEW, job, tmp_path, place=Place(section="chosen")) as at:
        assert "against the advice (MEIWC)" in at.text
        assert "Taken because: The client asked" in " ".join(at.text.replace("│", " ").split())


async def test_the_edition_is_changed(tmp_path: Path) -> None:
    async with at_step(JobPage.REVIEW, fresh(FormSet.EIC), tmp_path) as at:
        await at.press("end", "enter", "4", "ctrl+o")
        assert at.job.edition is Edition.A4


async def test_an_earlier_edition_is_named_with_its_amendment(tmp_path: Path) -> None:
    job = done(fresh(FormSet.EICR), enter("report", "inspected_on", "15/04/2026"))
    async with at_step(JobPage.REVIEW, job, tmp_path) as at:
        await at.press("end", "enter")
        assert "15 April 2026, calls for BS 7671:2018+A2:2022+A3:2024" in " ".join(at.text.replace("│", " ").split())
        await at.press("e", "tab")
        await at.type("BS 7671:2008+A3:2015")
        await at.press("ctrl+o")
        assert (at.job.edition, at.job.edition_in_full) == (Edition.EARLIER, "BS 7671:2008+A3:2015")


async def test_a_finished_job_says_that_it_can_be_issued(tmp_path: Path) -> None:
    async with at_step(JobPage.REVIEW, complete_minor_works(), tmp_path) as at:
        assert "it can be issued" in at.text


async def test_the_next_open_thing_after_a_question_is_reached_from_it(tmp_path: Path) -> None:
    job = done(failing(), RaiseSnag(what="Lid cracked", by=INSPECTOR, on=ON))
    job = entered(job, HIGH_ZS, board="b1", circuit="c2")
    async with at_step(JobPage.REVIEW, job, tmp_path) as at:
        seen = []
        for _ in range(4):
            await at.press("ctrl+g")
            seen.append(at.screen.step)
        assert seen == [JobPage.RESULTS, JobPage.REVIEW, JobPage.ISSUE, JobPage.ISSUE]


async def test_a_report_with_gaps_is_not_called_satisfactory(tmp_path: Path) -> None:
    async with at_step(JobPage.REVIEW, fresh(FormSet.EICR), tmp_path) as at:
        assert "Not decided yet" in at.text
        assert "satisfactory" not in at.text
    async with at_step(JobPage.REVIEW, complete_report(Code.C3, sign=False), tmp_path / "other") as at:
        assert "As it stands: satisfactory (1 C3)" in at.text


async def test_a_step_is_found_again_where_it_was_left(tmp_path: Path) -> None:
    place = Place(section="boards", board="b1", circuit="c3", box="rating")
    async with at_step(JobPage.CIRCUITS, complete_certificate(sign=False), tmp_path, place=place) as at:
        await at.press("f8", "f3", "down", "down", "down")
        client = at.screen.where()
        await at.press("f4")
        assert at.screen.where() == place
        await at.press("f3")
        assert at.screen.where() == client


async def test_a_broad_window_counts_what_is_open_on_each_step(tmp_path: Path) -> None:
    async with at_step(JobPage.REVIEW, fresh(FormSet.EIC), tmp_path, size=(120, 30)) as at:
        gaps = [each for each in assess(at.job).reasons if step_of(each.place) is JobPage.DETAILS]
        assert f"F3 Details {len(gaps)} " in at.text
