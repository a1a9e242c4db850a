"""What is put forward has a sign of its own until somebody says yes: box by box with Enter, or a part with one key."""

from pathlib import Path

from domain.editing.carrying import details_of
from domain.editing.commands import Enter, PutForward
from domain.forms.form_set import FormSet
from domain.job.job import Job
from domain.place import Place
from tests.builders import complete_certificate, done, fresh
from tests.tui.screens.details_page import at, page
from tests.tui.screens.job_at import at_step
from tui.job_page import JobPage


def put_forward() -> Job:
    """A certificate with voltage, frequency and the name of the board put forward."""
    texts = {at("supply", "voltage"): "230", at("supply", "frequency"): "50"}
    texts[Place(section="boards", board="b1", box="location")] = "Hall"
    return done(fresh(FormSet.EIC), PutForward(entries=tuple(Enter(place=p, text=t) for p, t in texts.items())))


async def test_enter_says_yes_to_one_box_and_goes_on_and_one_undo_takes_it_back(tmp_path: Path) -> None:
    async with page(put_forward(), tmp_path, at("supply", "voltage")) as at_page:
        assert "230 =" in at_page.line_with("Nominal U (V)")
        await at_page.press("enter")
        assert [place.box for place in at_page.job.unconfirmed] == ["frequency", "location"]
        assert at_page.box == "voltage_to_earth"
        assert "=" not in at_page.line_with("Nominal U (V)")
        await at_page.press("ctrl+u")
        assert [place.box for place in at_page.job.unconfirmed] == ["voltage", "frequency", "location"]


async def test_typing_the_same_says_yes_too_and_one_key_says_it_to_the_part_alone(tmp_path: Path) -> None:
    async with page(put_forward(), tmp_path, at("supply", "voltage")) as at_page:
        await at_page.type("230", "enter")
        assert [place.box for place in at_page.job.unconfirmed] == ["frequency", "location"]
    async with page(put_forward(), tmp_path / "other", at("supply", "voltage")) as at_page:
        await at_page.press("ctrl+y")
        assert [place.box for place in at_page.job.unconfirmed] == ["location"]
        assert "2 boxes confirmed as put forward" in at_page.said


async def test_the_circuits_of_a_board_that_was_carried_over_are_confirmed_with_one_key(tmp_path: Path) -> None:
    job = done(fresh(FormSet.EIC), details_of(complete_certificate()))
    board = job.boards[0]
    place = Place(section="boards", board=board.id, circuit=board.circuits[0].id, box="rating")
    async with at_step(JobPage.CIRCUITS, job, tmp_path, place=place) as at_page:
        assert "32=" in at_page.text
        await at_page.press("ctrl+y")
        assert not [each for each in at_page.job.unconfirmed if each.circuit and each.box == "rating"]
        assert [each for each in at_page.job.unconfirmed if each.section == "supply"]
