"""Items are marked by one key each, and what a mark needs beside it is asked at once."""

from pathlib import Path

import pytest

from domain.editing.commands import Observe, SetOutcome
from domain.forms.form_set import FormSet
from domain.inspection.checklist import items_for
from domain.inspection.item_outcome import InspectionOutcome, ItemOutcome
from domain.inspection.observation import Code
from domain.job.job import Job
from domain.place import Place
from tests.builders import done, enter, fresh
from tests.tui.screens.job_at import AtStep, at_step
from tui.job_page import JobPage

ITEMS = [item.number for item in items_for(FormSet.EICR, fresh(FormSet.EICR).edition)]
FIRST, SECOND = ITEMS[:2]


def marks(at: AtStep) -> dict[str, InspectionOutcome]:
    return {outcome.item: outcome.mark for outcome in at.job.inspection}


@pytest.mark.parametrize(
    ("key", "mark"),
    [
        ("space", InspectionOutcome.PASS),
        ("y", InspectionOutcome.PASS),
        ("Y", InspectionOutcome.PASS),
        ("f12", InspectionOutcome.PASS),
        ("n", InspectionOutcome.NOT_APPLICABLE),
        ("f10", InspectionOutcome.NOT_APPLICABLE),
    ],
)
@pytest.mark.parametrize("form_set", [FormSet.EIC, FormSet.EICR])
async def test_one_key_marks_the_item_and_moves_on(
    key: str, mark: InspectionOutcome, form_set: FormSet, tmp_path: Path
) -> None:
    first, second = (item.number for item in items_for(form_set, fresh(form_set).edition)[:2])
    async with at_step(JobPage.INSPECTION, fresh(form_set), tmp_path) as at:
        await at.press(key)
        assert marks(at) == {first: mark}
        assert at.screen.where() == Place(section="inspection", item=second)
        assert f" {mark:<3} {first} " in at.text


@pytest.mark.parametrize("key", ["1", "2", "3", "f", "l", "v"])
async def test_a_certificate_takes_no_codes_and_no_limitations(key: str, tmp_path: Path) -> None:
    async with at_step(JobPage.INSPECTION, fresh(FormSet.EIC), tmp_path) as at:
        await at.press(key)
        assert marks(at) == {}
        await at.press("f1")
        assert "Codes the item" not in at.text


@pytest.mark.parametrize(("key", "code"), [("1", Code.C1), ("2", Code.C2), ("3", Code.C3), ("f", Code.FI)])
async def test_a_code_asks_for_its_observation_with_the_item_filled_in(key: str, code: Code, tmp_path: Path) -> None:
    async with at_step(JobPage.INSPECTION, fresh(FormSet.EICR), tmp_path) as at:
        await at.press(key)
        await at.type("Cover missing", "ctrl+o")
        (observation,) = at.job.observations
        assert (observation.code, observation.finding, observation.items) == (code, "Cover missing", (FIRST,))
        assert marks(at) == {FIRST: InspectionOutcome(code)}
        if code is Code.C1:
            await at.press("escape")
        assert at.screen.where() == Place(section="inspection", item=SECOND)


async def test_the_cursor_begins_on_the_first_item_that_is_open(tmp_path: Path) -> None:
    job = done(fresh(FormSet.EICR), SetOutcome(item=FIRST, mark=InspectionOutcome.PASS))
    async with at_step(JobPage.INSPECTION, job, tmp_path) as at:
        assert at.screen.where() == Place(section="inspection", item=SECOND)


@pytest.mark.parametrize("key", ["s", "f"])
async def test_what_fails_on_a_certificate_goes_on_the_snagging_list_with_its_item(key: str, tmp_path: Path) -> None:
    async with at_step(JobPage.INSPECTION, fresh(FormSet.EIC), tmp_path) as at:
        item = at.screen.where()
        await at.press(key)
        await at.type("lid cracked", "ctrl+o")
        (snag,) = at.job.snags
        assert snag.what.endswith(": lid cracked")
        assert snag.about == item
        assert marks(at) == {}


async def test_a_section_marked_at_once_is_taken_back_at_once(tmp_path: Path) -> None:
    async with at_step(JobPage.INSPECTION, fresh(FormSet.EICR), tmp_path) as at:
        await at.press("r", "y")
        assert len(marks(at)) > 1
        await at.press("ctrl+u")
        assert marks(at) == {}


async def test_a_coded_item_without_an_observation_shows_it_and_keeps_its_mark(tmp_path: Path) -> None:
    async with at_step(JobPage.INSPECTION, fresh(FormSet.EICR), tmp_path) as at:
        await at.press("2", "escape")
        assert marks(at) == {FIRST: InspectionOutcome.C2}
        assert "! not observed" in at.text
        assert "No observation says so yet" in at.text
        await at.press("enter")
        await at.type("Cover missing", "ctrl+o")
        assert "! not observed" not in at.text
        assert at.job.observations[0].items == (FIRST,)


async def test_another_code_rewrites_the_observation_of_the_item(tmp_path: Path) -> None:
    async with at_step(JobPage.INSPECTION, fresh(FormSet.EICR), tmp_path) as at:
        await at.press("3")
        await at.type("Cover loose", "ctrl+o")
        await at.press("up", "2", "ctrl+o")
        (observation,) = at.job.observations
        assert (observation.code, observation.finding) == (Code.C2, "Cover loose")


async def test_danger_shows_words_of_caution(tmp_path: Path) -> None:
    async with at_step(JobPage.INSPECTION, fresh(FormSet.EICR), tmp_path) as at:
        await at.press("1")
        assert "tell the duty holder at once" in at.text


async def test_not_verified_needs_its_reason(tmp_path: Path) -> None:
    async with at_step(JobPage.INSPECTION, fresh(FormSet.EICR), tmp_path) as at:
        await at.press("v", "enter", "escape")
        assert at.job.inspection == ()
        await at.press("v")
        await at.type("Meter sealed", "enter")
        assert at.job.inspection == (ItemOutcome(item=FIRST, mark=InspectionOutcome.NOT_VERIFIED, note="Meter sealed"),)


async def test_a_limitation_may_leave_its_reason_to_the_report(tmp_path: Path) -> None:
    limited = done(fresh(FormSet.EICR), enter("report", "agreed_limitations", "Loft not entered."))
    async with at_step(JobPage.INSPECTION, limited, tmp_path / "a") as at:
        await at.press("l", "enter")
        assert marks(at) == {FIRST: InspectionOutcome.LIMITATION}
    async with at_step(JobPage.INSPECTION, fresh(FormSet.EICR), tmp_path / "b") as at:
        await at.press("l", "enter", "escape")
        assert marks(at) == {}


async def test_an_item_of_these_premises_is_added_marked_and_taken_away(tmp_path: Path) -> None:
    async with at_step(JobPage.INSPECTION, fresh(FormSet.EICR), tmp_path) as at:
        await at.press("i")
        await at.type("Stage lighting", "ctrl+o")
        assert at.screen.where() == Place(section="inspection", item="A1")
        assert "Added for these premises" in at.text
        await at.press("y", "delete", "delete", "y")
        assert at.job.own_items == ()


async def test_an_observed_item_takes_no_other_mark_and_a_left_form_changes_nothing(tmp_path: Path) -> None:
    observed = done(fresh(FormSet.EICR), Observe(finding="Cover missing", code=Code.C2, items=(FIRST,)))
    place = Place(section="inspection", item=FIRST)
    async with at_step(JobPage.INSPECTION, observed, tmp_path, place=place) as at:
        await at.press("y")
        assert "Observation 1 makes" in at.said
        await at.press("1", "escape")
        assert "stays C2" in at.said
        assert marks(at) == {FIRST: InspectionOutcome.C2}


async def test_the_rest_of_a_section_is_marked_after_a_question_and_only_where_open(tmp_path: Path) -> None:
    section = items_for(FormSet.EICR, fresh(FormSet.EICR).edition)[0].section
    inside = [item.number for item in items_for(FormSet.EICR, fresh(FormSet.EICR).edition) if item.section == section]
    async with at_step(JobPage.INSPECTION, fresh(FormSet.EICR), tmp_path) as at:
        await at.press("n", "r", "n")
        assert marks(at) == {FIRST: InspectionOutcome.NOT_APPLICABLE}
        await at.press("r", "y")
        assert marks(at) == {FIRST: InspectionOutcome.NOT_APPLICABLE} | dict.fromkeys(
            inside[1:], InspectionOutcome.PASS
        )
        assert at.screen.where() == Place(section="inspection", item=ITEMS[len(inside)])
        await at.press("up", "a")
        assert "has its mark" in at.said


@pytest.mark.parametrize("key", ["delete", "backspace"])
async def test_a_mark_is_taken_away(key: str, tmp_path: Path) -> None:
    async with at_step(JobPage.INSPECTION, fresh(FormSet.EICR), tmp_path) as at:
        await at.press("y", "up", key)
        assert at.job.inspection == ()


async def test_a_remark_stands_beside_a_pass_and_survives_marking_it_again(tmp_path: Path) -> None:
    async with at_step(JobPage.INSPECTION, fresh(FormSet.EICR), tmp_path) as at:
        await at.press("m")
        assert "Mark the item first" in at.said
        await at.press("y", "up", "m")
        await at.type("Seal replaced", "enter")
        await at.press("y")
        assert at.job.inspection == (ItemOutcome(item=FIRST, mark=InspectionOutcome.PASS, note="Seal replaced"),)
        assert "remark" in at.text


async def test_a_place_is_gone_to_and_without_one_the_first_open_item(tmp_path: Path) -> None:
    job = half_inspected()
    async with at_step(
        JobPage.INSPECTION, job, tmp_path / "a", place=Place(section="inspection", item=ITEMS[20])
    ) as at:
        assert f" {ITEMS[20]} " in at.line_with(">")
    async with at_step(JobPage.INSPECTION, job, tmp_path / "b", place=Place(section="inspection")) as at:
        assert at.screen.where() == Place(section="inspection", item=ITEMS[3])


def half_inspected() -> Job:
    return done(fresh(FormSet.EICR), *(SetOutcome(item=number, mark=InspectionOutcome.PASS) for number in ITEMS[:3]))
