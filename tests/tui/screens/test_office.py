"""The office and its laptops on the screen: what can be done, the list to settle, and what every screen says quietly."""

from dataclasses import replace
from pathlib import Path

import pytest

from domain.laptops.holding import Station
from domain.laptops.matter import MatterKind
from domain.laptops.operation import Act
from domain.laptops.settling import CHOICES
from domain.laptops.telling import COMES_TO
from tests.builders import AT, INSPECTOR, complete_minor_works
from tests.tui.screens.services import app_in, services_in
from tests.tui.screens.shown import text_of
from tui.app import OhmfolioApp
from tui.commands.parsing import parse
from tui.commands.registry import command_named
from tui.router import screen_for
from tui.screens.keeping_tasks import Offer
from tui.screens.office_tasks import offered_to

FILLED = {
    "where": "office.example",
    "trust": "",
    "jobs": "a1, A-0002",
    "into": "a1",
    "other": "HE-0001",
    "laptop": "HE",
    "letters": "HE",
    "person": "Hester Ekwall",
    "file": "/tmp/first file",
    "what": "shut out",
}
WHO = {
    "alone": None,
    "an office": Station("a", "A", is_office=True),
    "a laptop": Station("h", "HE"),
}


@pytest.mark.parametrize("which", WHO)
def test_whatever_is_answered_comes_to_a_command_that_can_be_done(which: str) -> None:
    offer = Offer(AT.date(), Path("/home/packs"), "A-0007", {}, "HE")
    for task in offered_to(WHO[which]):
        if task.leads_to is None:
            typed = {line.name: FILLED[line.name] for line in task.lines(offer)}
            first, *rest = task.task(typed).typed
            parse(command_named(first), rest)
    said = " ".join(task.task(FILLED).typed[0] for task in offered_to(WHO[which]) if not task.leads_to)
    assert (
        said
        == {
            "alone": "laptop join",
            "an office": "exchange take-out take-boards laptop laptop laptop",
            "a laptop": "exchange take-out bring-back take-boards laptop",
        }[which]
    )


def test_every_matter_has_two_choices_and_says_what_each_comes_to() -> None:
    assert set(CHOICES) == set(COMES_TO) == set(MatterKind)


async def test_a_job_of_a_lost_laptop_is_settled_by_keys_alone_and_asked_about_first(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    app = app_in(tmp_path, complete_minor_works())
    laptops = app.services.log.laptops
    assert laptops
    laptops.enrol("HE", device="he00", person="Hester Ekwall", at=AT)
    laptops.take_out("A-0001", to="HE", at=AT)
    laptops.declare(Act.LOST, "HE", at=AT)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f7", "o")
        assert "1 to settle" in text_of(app)
        await pilot.press("s")
        assert "A-0001 is out with Hester Ekwall, and that laptop is lost" in text_of(app)
        await pilot.press("1")
        assert "Go on with a copy under a new number?" in text_of(app)
        await pilot.press("n")
        assert len(laptops.matters()) == 1
        await pilot.press("1", "y")
        assert "A-0001 goes on as A-0002" in text_of(app)
        assert laptops.matters() == ()
        assert "to settle" not in text_of(app)
    assert app.services.log.trail("A-0002")[0].who == INSPECTOR


async def test_a_log_that_has_just_been_begun_asks_once_for_the_letters_of_its_numbers(tmp_path: Path) -> None:
    app = OhmfolioApp(replace(services_in(tmp_path), began_in="there", letters="TO"), screen_for)
    async with app.run_test(size=(80, 24)) as pilot:
        assert "Which letters shall the numbers of your jobs begin with?" in text_of(app)
        await pilot.press("4", "enter")
        assert "one to four letters" in text_of(app)
        await pilot.press("backspace", "h", "m", "enter")
        assert "Jobs are numbered from HM-0001" in text_of(app)
    assert app.services.log.numbering().prefix == "HM"


@pytest.mark.parametrize("own", WHO.values(), ids=WHO)
def test_each_thing_that_can_be_done_says_itself_whole_on_a_screen_of_eighty_columns(own: Station | None):
    offered = offered_to(own)
    titles = max(len(each.title) for each in offered)
    assert [each.says for each in offered if len(f">X {'':{titles}} {each.says}") > 80] == []
