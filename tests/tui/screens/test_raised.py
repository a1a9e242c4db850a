"""Snags are raised and cleared by people; observations are written, coded and withdrawn."""

from datetime import date
from pathlib import Path

import pytest

from domain.editing.commands import Observe, RaiseSnag
from domain.forms.form_set import FormSet
from domain.inspection.codes.likeness import MOST
from domain.inspection.observation import Code
from domain.job.job import Job
from domain.job.snag import Cleared
from domain.place import Place
from tests.builders import ON, complete_certificate, complete_report, done, entered, fresh, snagged
from tests.tui.screens.job_at import at_step, step_on
from tui.job_page import JobPage
from tui.screens.dialogs import FormScreen

WHO = "Tamsin Orchard"


async def test_a_snag_is_raised_with_what_where_and_who(tmp_path: Path) -> None:
    async with at_step(JobPage.RAISED, fresh(FormSet.EIC), tmp_path) as at:
        assert "C Clear" not in at.text
        await at.press("r")
        await at.type("Gland loose", "enter")
        await at.type("DB1", "enter", "enter")
        (snag,) = at.job.snags
        assert (snag.what, snag.where, snag.raised_by, snag.raised_on) == ("Gland loose", "DB1", WHO, date(2026, 3, 2))
        assert "! open" in at.text
        assert "C Clear" in at.text


async def test_a_snag_is_cleared_only_with_a_word_on_how(tmp_path: Path) -> None:
    async with at_step(JobPage.RAISED, snagged(fresh(FormSet.EIC)), tmp_path) as at:
        await at.press("c", "ctrl+o")
        assert at.job.open_snags
        await at.type("Grommet fitted", "ctrl+o")
        assert at.job.snags[0].cleared == Cleared(by=WHO, on=date(2026, 3, 2), how="Grommet fitted")
        assert "✓ cleared" in at.text
        assert "Grommet fitted" in at.text


async def test_a_cleared_snag_is_opened_again_after_a_question(tmp_path: Path) -> None:
    async with at_step(JobPage.RAISED, snagged(fresh(FormSet.EIC)), tmp_path) as at:
        await at.press("o")
        assert "It is open" in at.said
        await at.press("c")
        await at.type("Grommet fitted", "ctrl+o")
        await at.press("o", "n")
        assert not at.job.open_snags
        await at.press("o", "y")
        assert at.job.open_snags


async def test_open_snags_stand_before_cleared_ones(tmp_path: Path) -> None:
    job = snagged(snagged(fresh(FormSet.EIC), "First"), "Second")
    async with at_step(JobPage.RAISED, job, tmp_path) as at:
        await at.press("c")
        await at.type("Done", "ctrl+o")
        assert at.text.index("Second") < at.text.index("First")


async def test_a_snag_leads_to_the_place_it_was_raised_about(tmp_path: Path) -> None:
    about = Place(section="client", box="name")
    job = done(fresh(FormSet.EIC), RaiseSnag(what="Name misspelt", by=WHO, on=ON, about=about))
    async with at_step(JobPage.RAISED, job, tmp_path) as at:
        await at.press("g")
        assert at.screen.where() == about


@pytest.mark.parametrize(("key", "code"), [("1", Code.C1), ("2", Code.C2), ("3", Code.C3), ("f", Code.FI)])
async def test_an_observation_gets_the_code_that_was_picked_and_none_before(
    key: str, code: Code, tmp_path: Path
) -> None:
    async with at_step(JobPage.RAISED, fresh(FormSet.EICR), tmp_path) as at:
        await at.press("r")
        await at.type("Cover missing", "enter")
        assert "(x)" not in at.text
        assert all(each.meaning in at.text for each in Code)
        await at.press("ctrl+o")
        assert at.job.observations == ()
        await at.press(key, "enter")
        await at.type("Hall", "enter")
        await at.type("4.4, 5.1", "enter")
        await at.type("Live parts within reach", "enter")
        (observation,) = at.job.observations
        assert (observation.code, observation.where, observation.items) == (code, "Hall", ("4.4", "5.1"))
        assert observation.reason == "Live parts within reach"
        if code is Code.C1:
            await at.press("escape")
        assert code.meaning in at.text


async def test_guidance_stands_beside_an_observation_while_it_is_typed_and_picks_no_code(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at_step(JobPage.RAISED, fresh(FormSet.EICR), tmp_path) as at:
        await at.press("r")
        assert "once the hands rest" in at.text
        await at.type("garden socket no rc")
        assert "C2       No RCD for sockets that may feed equipment outdoors" in at.text
        assert _unwrapped(at.text).count("(Best Practice Guide 4, Issues 3 to 6; memory)") == MOST
        assert "(x)" not in at.text
        monkeypatch.setattr(FormScreen, "RESTS_AFTER", 3600)
        await at.type("d, lead sheathed cable")
        assert "Old lead-sheathed cable" not in at.text
        monkeypatch.setattr(FormScreen, "RESTS_AFTER", 0)
        await at.type("s")
        assert "Old lead-sheathed cable" in at.text
        monkeypatch.setattr(FormScreen, "RESTS_AFTER", 3600)
        await at.type(" in the hall and the landing, seen behind the meter and at the ceiling roses of both" * 4)
        monkeypatch.setattr(FormScreen, "RESTS_AFTER", 0)
        await at.type(".")
        assert "Enter Next" in at.text.splitlines()[-2]


def _unwrapped(text: str) -> str:
    return " ".join(text.replace("│", " ").split())


async def test_guidance_of_its_item_stands_beside_an_observation_without_words(tmp_path: Path) -> None:
    async with at_step(JobPage.RAISED, fresh(FormSet.EICR), tmp_path) as at:
        await at.press("r", "down", "down", "down")
        await at.type("4.4")
        assert "Consumer unit of plastic in a home" in at.text
        assert "contested" in at.text


async def test_an_observation_is_rewritten_and_withdrawn(tmp_path: Path) -> None:
    async with at_step(JobPage.RAISED, complete_report(Code.C3), tmp_path) as at:
        await at.press("enter", "end")
        await at.type(" by the stairs", "ctrl+o")
        assert at.job.observations[0].finding == "Invented finding, coded C3 by the stairs"
        await at.press("w", "n")
        assert len(at.job.observations) == 1
        await at.press("delete", "y")
        assert at.job.observations == ()
        assert "Nothing raised" in at.text


async def test_the_worst_code_stands_first_and_danger_carries_its_caution(tmp_path: Path) -> None:
    async with at_step(JobPage.RAISED, complete_report(Code.C3, Code.C1), tmp_path) as at:
        assert at.text.index("coded C1") < at.text.index("coded C3")
        assert "tell the duty holder at once" in at.text


async def test_an_observation_leads_to_its_inspection_item(tmp_path: Path) -> None:
    async with at_step(JobPage.RAISED, fresh(FormSet.EICR), tmp_path) as at:
        await at.press("r")
        await at.type("Cover missing", "enter", "2", "enter", "enter")
        await at.type("4.5", "ctrl+o")
        await at.press("g")
        assert step_on(at) is JobPage.INSPECTION
        assert at.screen.where() == Place(section="inspection", item="4.5")


async def test_a_change_after_signing_says_that_signatures_are_lifted(tmp_path: Path) -> None:
    async with at_step(JobPage.RAISED, complete_report(Code.C3), tmp_path) as at:
        await at.press("delete", "y")
        assert "Signatures lifted: Tamsin Orchard (" in at.said


IR, LIVE = (Place(section="boards", board="b1", circuit="c2", box=box) for box in ("ir_earth", "ir_live"))


def failing_report() -> Job:
    """A report with two failures of one circuit and one at the earthing, two items ticked beside them, and one observation that answers none."""
    job = entered(complete_report(sign=False), {"ir_earth": "0.3", "ir_live": "0.2"}, board="b1", circuit="c2")
    job = entered(job, {"bonded_gas": "N"}, section="earthing")
    return done(job, Observe(finding="Kitchen sockets, gas pipe: all bad", code=Code.C2, about=IR))


async def test_failures_are_ticked_for_an_observation_and_the_likely_ones_come_first(tmp_path: Path) -> None:
    async with at_step(JobPage.RAISED, failing_report(), tmp_path) as at:
        assert "5 failing readings of this report answered by none" in " ".join(at.text.split())
        await at.press("a", "space", "space", "enter")
        (observation,) = at.job.observations
        assert observation.answers == (IR, LIVE)
        assert "Answers DB1, circuit 1 Kitchen sockets, Insulation, live to earth" in " ".join(at.text.split())


async def test_leaving_the_list_of_failures_leaves_every_tick_as_it_was(tmp_path: Path) -> None:
    async with at_step(JobPage.RAISED, failing_report(), tmp_path) as at:
        await at.press("a", "space", "escape")
        assert at.job.observations[0].answers == ()
        await at.press("a", "space", "enter", "a", "space", "enter")
        assert at.job.observations[0].answers == ()


async def test_a_c1_is_saved_and_then_asks_what_was_done_at_once(tmp_path: Path) -> None:
    async with at_step(JobPage.RAISED, fresh(FormSet.EICR), tmp_path) as at:
        await at.press("r")
        await at.type("Bare wire", "enter")
        await at.press("1", "ctrl+o")
        (observation,) = at.job.observations
        assert (observation.code, observation.action) == (Code.C1, None)
        await at.press("y", "enter")
        await at.type("Switched off", "enter")
        await at.type("The client", "enter")
        await at.type("02/03/2026 15:10", "enter")
        (observation,) = at.job.observations
        assert observation.action is not None
        assert observation.action.sentence == "Made safe: Switched off. Told: The client, 02/03/2026 15:10."


async def test_an_observation_raised_with_a_key_on_a_failing_reading_answers_it_and_then_ticks_others(
    tmp_path: Path,
) -> None:
    async with at_step(JobPage.RESULTS, failing_report(), tmp_path, place=IR) as at:
        await at.press("insert", "enter", "2", "ctrl+o")
        observation = at.job.observations[-1]
        assert (observation.code, observation.about, observation.answers) == (Code.C2, IR, (IR,))
        assert "4 fail still. Insert here again ticks" in at.said
        await at.press("insert", "down", "space", "enter")
        assert at.job.observations[-1].answers == (IR, LIVE)
        assert len(at.job.observations) == 2


async def test_a_snag_is_raised_with_a_key_on_a_box_of_the_earthing(tmp_path: Path) -> None:
    gas = Place(section="earthing", box="bonded_gas")
    job = entered(complete_certificate(sign=False), {"bonded_gas": "N"}, section="earthing")
    async with at_step(JobPage.DETAILS, job, tmp_path, place=gas) as at:
        await at.press("insert", "ctrl+o")
        (snag,) = at.job.snags
        assert snag.about == gas
        assert "gas pipe is marked as not bonded" in snag.what
