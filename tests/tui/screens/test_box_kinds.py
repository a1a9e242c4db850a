"""What each kind of box takes on the page of details: readings, choices, ticks, running text."""

from pathlib import Path

import pytest
from textual import events

from domain.forms.form_set import FormSet
from domain.place import Place
from tests.builders import complete_certificate, entered, fresh
from tests.tui.screens.details_page import at, page


async def test_a_reading_is_kept_as_typed(tmp_path: Path) -> None:
    async with page(complete_certificate(), tmp_path, at("supply", "ze")) as at_page:
        await at_page.type("0,30", "enter")
        assert at_page.job.supply.ze.typed == "0,30"
        assert "0,30" in at_page.line_with("External loop impedance Ze")


async def test_lim_on_a_certificate_belongs_on_reports_only(tmp_path: Path) -> None:
    async with page(complete_certificate(), tmp_path, at("supply", "ze")) as at_page:
        await at_page.type("lim", "enter")
        assert "LIM belongs on reports only" in at_page.said


@pytest.mark.parametrize(
    ("typed", "kept"),
    [("TN-S", "TN-S"), ("tt", "TT"), ("2", "TN-S"), ("i", "IT"), ("tn-c", "TN-C"), ("tn", "tn"), ("solid", "solid")],
)
async def test_a_choice_is_picked_by_its_beginning_or_number_and_else_kept_as_typed(
    tmp_path: Path, typed: str, kept: str
) -> None:
    async with page(fresh(FormSet.EIC), tmp_path, at("supply", "system")) as at_page:
        await at_page.type(typed, "enter")
        assert at_page.job.supply.system == kept


async def test_space_steps_through_the_choices_and_the_panel_lists_them(tmp_path: Path) -> None:
    async with page(fresh(FormSet.EIC), tmp_path, at("supply", "system")) as at_page:
        assert "1 TN-C-S  2 TN-S  3 TT" in at_page.panel
        await at_page.press("space", "space", "space", "enter")
        assert at_page.job.supply.system == "TT"
        await at_page.press("up", "space", "enter")
        assert at_page.job.supply.system == "TN-C"


async def test_typing_narrows_the_choices_shown(tmp_path: Path) -> None:
    async with page(fresh(FormSet.EIC), tmp_path, at("supply", "live_conductors")) as at_page:
        await at_page.type("dc")
        assert "DC 2-wire" in at_page.panel
        assert "AC 1-phase" not in at_page.panel
        await at_page.press("space", "enter")
        assert at_page.job.supply.live_conductors == "dc", "two choices begin so, and a blank was typed after them"


@pytest.mark.parametrize(
    ("typed", "kept"), [("60898", "BS EN 60898"), ("bs en 62208", "bs en 62208"), ("88-3", "BS 88-3")]
)
async def test_an_open_choice_takes_any_text_and_knows_a_number_of_a_standard(
    tmp_path: Path, typed: str, kept: str
) -> None:
    job = fresh(FormSet.EIC)
    place = Place(section="boards", board="b1", box="device_standard")
    async with page(job, tmp_path, place) as at_page:
        await at_page.type(typed, "enter")
        assert at_page.job.boards[0].device_standard == kept


@pytest.mark.parametrize(("keys", "shown"), [(["y"], "✓"), (["n"], "✗"), (["space"], "✓"), (["space", "space"], "✗")])
async def test_a_tick_takes_yes_no_and_space(tmp_path: Path, keys: list[str], shown: str) -> None:
    async with page(fresh(FormSet.EIC), tmp_path, at("supply", "polarity")) as at_page:
        await at_page.press(*keys, "enter")
        assert at_page.job.supply.polarity.shown == shown
        assert shown in at_page.line_with("Supply polarity confirmed")


async def test_running_text_wraps_while_it_is_typed(tmp_path: Path) -> None:
    words = "Kitchen rewired: one ring for sockets and one radial for the cooker"
    async with page(fresh(FormSet.EIC), tmp_path, at("work", "description")) as at_page:
        await at_page.type(words)
        shown = " ".join(at_page.text.split())
        assert words in shown.replace("Description of the work .............. ", "")
        await at_page.press("enter")
        assert at_page.job.work.description == words


async def test_a_text_longer_than_the_screen_keeps_its_cursor_in_sight(tmp_path: Path) -> None:
    job = entered(fresh(FormSet.EIC), {"extent": "room " * 300 + "finally"}, section="work")
    async with page(job, tmp_path, at("work", "extent")) as at_page:
        await at_page.press("ctrl+e")
        assert "finally" in at_page.text
        await at_page.press("home")
        assert "Extent covered" in at_page.text
        assert "finally" not in at_page.text
        await at_page.type("Every ", "down")
        assert at_page.job.work.extent.startswith("Every room room")
        below = at_page.screen.part.entering.current
        assert below.place.box != "extent"
        assert below.label in at_page.text


async def test_a_pasted_address_keeps_its_lines_and_drops_control_characters(tmp_path: Path) -> None:
    async with page(fresh(FormSet.EIC), tmp_path, at("premises", "address")) as at_page:
        at_page.app.screen.focused.post_message(events.Paste("The Old Forge\r\nWetherham\x1b[2J"))  # type: ignore[union-attr]
        await at_page.press("enter")
        assert at_page.job.premises.address == "The Old Forge\nWetherham[2J"


async def test_delete_empties_a_box(tmp_path: Path) -> None:
    async with page(complete_certificate(), tmp_path, at("client", "postcode")) as at_page:
        await at_page.type("x", "enter", "up", "delete", "enter")
        assert at_page.job.client.postcode == ""


async def test_today_in_a_box_for_a_date_is_the_date_of_the_day(tmp_path: Path) -> None:
    async with page(complete_certificate(), tmp_path, at("work", "completed_on")) as at_page:
        for typed in ("t", "Today"):
            at_page.screen.part.go_to(at("work", "completed_on"))
            await at_page.type("18 Nov 26", "enter")
            assert at_page.job.work.completed_on == "18 Nov 26"
            at_page.screen.part.go_to(at("work", "completed_on"))
            await at_page.type(typed, "enter")
            assert at_page.job.work.completed_on == f"{at_page.app.services.now():%d/%m/%Y}"


async def test_enter_on_an_empty_box_goes_on_and_on_a_text_opens_it(tmp_path: Path) -> None:
    async with page(fresh(FormSet.EIC), tmp_path, at("client", "name")) as at_page:
        await at_page.press("enter")
        assert at_page.box == "address"
        await at_page.type("3 Weir Lane", "enter", "up", "enter")
        assert at_page.screen.typing is not None
