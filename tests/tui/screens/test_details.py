"""The page of details: typed with keys alone, kept as typed, and nothing lost."""

import asyncio
from pathlib import Path

import pytest
from textual import events

from domain.editing.commands import Command, Declined
from domain.forms.form_set import FormSet
from domain.job.job import Job
from domain.log.job_log import BoundPaper, JobLogError
from domain.place import Place
from tests.builders import AT, INSPECTOR, complete_certificate, complete_minor_works, fresh
from tests.tui.screens.details_page import at, page
from tests.tui.screens.job_at import AtStep, at_step, step_on
from tui.job_page import JobPage
from tui.screens.intake import IntakeScreen


async def test_typing_in_a_box_and_enter_saves_it_as_typed_and_goes_on(tmp_path: Path) -> None:
    async with page(fresh(FormSet.EIC), tmp_path) as at_page:
        await at_page.type("Zoë Fairweather", "enter")
        assert at_page.job.client.name == "Zoë Fairweather"
        assert at_page.box == "address"
        assert "Zoë Fairweather" in at_page.line_with("Client .")


async def test_typing_replaces_the_text_and_escape_gives_the_old_text_back(tmp_path: Path) -> None:
    async with page(complete_certificate(sign=False), tmp_path) as at_page:
        await at_page.type("Somebody else")
        assert "Somebody else" in at_page.line_with("Client .")
        await at_page.press("escape")
        assert "Zoë Fairweather" in at_page.line_with("Client .")
        assert at_page.job.client.name == "Zoë Fairweather"
        assert step_on(at_page.app) is JobPage.DETAILS


async def test_enter_on_a_box_at_rest_opens_its_text_at_the_end(tmp_path: Path) -> None:
    async with page(complete_certificate(), tmp_path) as at_page:
        await at_page.press("enter")
        await at_page.type(" jr", "enter")
        assert at_page.job.client.name == "Zoë Fairweather jr"


async def test_an_entry_is_not_shown_as_saved_before_it_is(tmp_path: Path) -> None:
    async with page(fresh(FormSet.EIC), tmp_path) as at_page:
        await at_page.type("Zoë")
        assert "saved" not in at_page.text
        assert at_page.job.client.name == ""
        await at_page.press("enter")
        assert "saved 16:30" in at_page.text


async def test_opening_a_box_and_leaving_it_unchanged_keeps_the_signatures(tmp_path: Path) -> None:
    async with page(complete_certificate(sign=True), tmp_path) as at_page:
        await at_page.press("enter", "enter", "enter", "down")
        assert at_page.job.signatures


@pytest.mark.parametrize("leave", ["tab", "down", "f4", "ctrl+g", "escape"])
async def test_what_is_typed_is_saved_however_the_box_is_left(tmp_path: Path, leave: str) -> None:
    async with page(fresh(FormSet.EIC), tmp_path, at("client", "contact")) as at_page:
        await at_page.type("01632 960 001")
        if leave == "escape":
            at_page.app.commit_open_entry()
        await at_page.press(leave)
        assert at_page.job.client.contact == "01632 960 001"


async def test_what_the_log_refuses_stays_open_with_what_was_typed(tmp_path: Path) -> None:
    async with page(fresh(FormSet.EIC), tmp_path, at("supply", "ze")) as at_page:
        await at_page.type("1234567890123456789012345", "enter")
        assert "24 characters" in at_page.said
        assert at_page.box == "ze"
        assert "1234567890123456789012345" in at_page.text
        assert at_page.job.supply.ze.typed == ""
        await at_page.press("f5")
        assert step_on(at_page.app) is JobPage.DETAILS, "leaving would lose what was typed"


async def test_a_log_that_cannot_write_loses_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with page(fresh(FormSet.EIC), tmp_path) as at_page:

        def full(number: str, command: Command, **_: object) -> Job | Declined:
            raise JobLogError("The disk is full")

        monkeypatch.setattr(at_page.log, "edit", full)
        await at_page.type("Zoë", "enter")
        assert "Not saved. The disk is full" in at_page.said
        monkeypatch.undo()
        await at_page.press("enter")
        assert at_page.job.client.name == "Zoë"


async def test_a_bad_entry_stays_with_what_is_wrong_beside_it(tmp_path: Path) -> None:
    async with page(fresh(FormSet.EIC), tmp_path, at("supply", "voltage")) as at_page:
        await at_page.type("tow thirty", "enter")
        assert at_page.job.supply.voltage.typed == "tow thirty"
        assert at_page.box == "voltage"
        assert "tow thirty ✗" in at_page.line_with("Nominal U (V)")
        assert "is no number" in at_page.panel
        assert "is no number" in at_page.said


@pytest.mark.parametrize("size", [(132, 40), (60, 20), (20, 6), (3, 2)])
async def test_the_page_stands_in_a_window_of_any_size(tmp_path: Path, size: tuple[int, int]) -> None:
    async with at_step(JobPage.DETAILS, complete_certificate(), tmp_path, size=size) as at_page:
        await at_page.press("pagedown", "x", "tab", "end", "enter", "escape", "home")
        assert at_page.box == "name"


async def test_boxes_of_other_form_sets_are_not_shown(tmp_path: Path) -> None:
    async with page(complete_minor_works(), tmp_path) as at_page:
        shown = await everything(at_page)
    assert "Main switch" not in shown
    assert "Zs at the board, Zdb" in shown
    async with page(complete_certificate(), tmp_path / "other") as at_page:
        shown = await everything(at_page)
    assert "Main switch" in shown
    assert "The report" not in shown


async def everything(at_page: AtStep) -> str:
    """The whole page, screen by screen."""
    shown, before = "", None
    while at_page.screen.where() != before:
        before = at_page.screen.where()
        shown += at_page.text
        await at_page.press("pagedown")
    return shown


async def test_page_keys_go_from_heading_to_heading_and_home_and_end_to_the_ends(tmp_path: Path) -> None:
    async with page(fresh(FormSet.EIC), tmp_path) as at_page:
        await at_page.press("pagedown", "pagedown")
        assert at_page.screen.where() == at("work", "kind")
        await at_page.press("down", "pageup")
        assert at_page.screen.where() == at("work", "kind")
        await at_page.press("pageup")
        assert at_page.screen.where() == at("premises", "address")
        await at_page.press("end")
        assert at_page.screen.where() == Place(section="boards", board="b1", box="tested_on")
        assert "Tested on" in at_page.text
        await at_page.press("home")
        assert at_page.screen.where() == at("client", "name")
        assert "── Client" in at_page.text


async def test_a_board_is_added_and_removed_with_keys(tmp_path: Path) -> None:
    async with page(complete_certificate(), tmp_path) as at_page:
        await at_page.press("ctrl+o", "enter")
        assert len(at_page.job.boards) == 2
        assert at_page.box == "designation"
        await at_page.type("DB2", "enter")
        assert at_page.job.boards[1].designation == "DB2"
        await at_page.press("ctrl+r", "ctrl+r")
        assert "Remove the board DB2?" in at_page.text
        await at_page.press("y")
        assert [board.designation for board in at_page.job.boards] == ["DB1"]


async def test_removing_a_board_names_what_goes_with_it_and_asks(tmp_path: Path) -> None:
    async with page(complete_certificate(), tmp_path, Place(section="boards", board="b1", box="zs")) as at_page:
        await at_page.press("ctrl+r")
        assert "Remove the board DB1, its 2 circuits and every reading on them?" in " ".join(at_page.text.split())
        await at_page.press("n")
        assert len(at_page.job.boards) == 1


async def test_no_key_is_dead_where_it_cannot_do_its_work(tmp_path: Path) -> None:
    async with page(complete_minor_works(), tmp_path) as at_page:
        await at_page.press("ctrl+r")
        assert "Put the cursor on a board" in at_page.said
        await at_page.press("ctrl+o")
        assert "Minor works covers one circuit of one board" in at_page.said


async def test_an_issued_job_is_not_typed_into_and_can_be_left(tmp_path: Path) -> None:
    async with page(complete_minor_works(), tmp_path) as at_page:
        at_page.log.issue(at_page.number, by=INSPECTOR, at=AT, bind=lambda _: BoundPaper(pdf=b"%PDF-1.7", pages=1))
        await at_page.press("f5", "f3")
        await at_page.type("Somebody else")
        assert "It has been issued" in at_page.said
        assert "Somebody else" not in at_page.text
        await at_page.press("enter", "f4")
        assert step_on(at_page.app) is JobPage.CIRCUITS


async def test_keys_that_arrive_together_are_answered_in_order(tmp_path: Path) -> None:
    async with page(fresh(FormSet.EIC), tmp_path) as at_page:
        for key, letter in [("Z", "Z"), ("enter", "\r"), ("7", "7"), ("tab", "\t"), ("W", "W"), ("enter", "\r")]:
            at_page.app.post_message(events.Key(key, letter))
        await at_page.pilot.pause()
        await asyncio.sleep(0)
        await at_page.pilot.pause()
        client = at_page.job.client
        assert (client.name, client.address, client.postcode) == ("Z", "7", "W")


async def test_the_place_is_remembered_when_another_step_is_opened(tmp_path: Path) -> None:
    async with page(fresh(FormSet.EIC), tmp_path, at("supply", "ze")) as at_page:
        await at_page.press("down", "f4")
        note = at_page.log.position(at_page.number, who=INSPECTOR)
        assert '"circuits"' in note
        await at_page.press("f3", "f5")
        assert step_on(at_page.app) is JobPage.RESULTS


async def test_next_open_goes_on_from_a_board_that_lacks_its_circuits(tmp_path: Path) -> None:
    async with page(complete_certificate(), tmp_path) as at_page:
        await at_page.press("ctrl+o", "enter")
        first = ""
        for _ in range(40):
            await at_page.press("ctrl+g")
            first = first or at_page.said
            if "no circuit is entered yet" in at_page.said:
                break
        assert "no circuit is entered yet" in at_page.said
        assert step_on(at_page.app) is JobPage.CIRCUITS
        await at_page.press("ctrl+g")
        assert at_page.said != first
        assert "no circuit is entered yet" not in at_page.said


async def test_tab_passes_over_boxes_that_are_not_needed_and_arrows_reach_them(tmp_path: Path) -> None:
    async with page(complete_certificate(), tmp_path, at("earthing", "means")) as at_page:
        await at_page.type("dist", "enter")
        assert at_page.box == "maximum_demand"
        await at_page.press("shift+tab")
        assert at_page.box == "means"
        await at_page.press("down")
        assert at_page.box == "electrode_type"
        await at_page.press("up")
        await at_page.type("both", "tab")
        assert at_page.box == "electrode_type"
        at_page.screen.part.go_to(Place(section="boards", board="b1", box="device_standard"))
        await at_page.type("na", "enter")
        assert at_page.box == "main_switch"


async def test_escape_after_work_leaves_the_job_only_when_pressed_again(tmp_path: Path) -> None:
    async with page(complete_certificate(sign=False), tmp_path) as at_page:
        await at_page.type("Hetty Quill", "enter", "escape")
        assert "Esc once more leaves the job" in at_page.said
        await at_page.press("down", "escape")
        assert "Esc once more leaves the job" in at_page.said
        await at_page.press("escape")
        assert isinstance(at_page.app.screen, IntakeScreen)


async def test_escape_leaves_a_job_that_was_only_looked_at_at_once(tmp_path: Path) -> None:
    async with page(complete_certificate(sign=False), tmp_path) as at_page:
        await at_page.press("down", "escape")
        assert isinstance(at_page.app.screen, IntakeScreen)
