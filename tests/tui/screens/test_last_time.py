"""The last time on the screen: asked about, matched by hand, and its details carried over."""

from pathlib import Path

from domain.forms.form_set import FormSet
from domain.place import Place
from tests.builders import complete_certificate, complete_report, entered, fresh
from tests.storage.test_last_time import issued_on
from tests.tui.screens.services import app_in
from tests.tui.screens.shown import lines_of, text_of
from tui.job_page import JobPage
from tui.router import screen_for
from tui.routes import ToJob
from tui.screens.last_time import LastTimeScreen
from tui.screens.readings import ReadingsScreen


def renumbered():
    job = entered(complete_report(sign=False), {"number": "5", "zs": "0.70"}, board="b1", circuit="c2")
    return entered(job, {"number": "1"}, board="b1", circuit=job.boards[0].circuits[1].id)


async def test_what_changed_since_the_last_visit_is_asked_and_the_match_is_the_persons(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    first = issued_on(app.services.log, 2016, complete_certificate(sign=False), zs="0.44")
    second = issued_on(app.services.log, 2021, complete_report(sign=False), zs="0.47")
    number = app.services.log.create(renumbered(), who="ned", at=app.services.now()).number
    async with app.run_test(size=(80, 24)) as pilot:
        zs = Place(section="boards", board="b1", circuit="c2", box="zs")
        await app.push_screen(screen_for(ToJob(number, JobPage.RESULTS, zs), app.services))
        await pilot.pause()
        assert "Last time, 2 March 2021: 0.47 Ω" in text_of(app)
        await pilot.press("ctrl+k")
        await pilot.pause()
        assert isinstance(app.screen, LastTimeScreen)
        assert f"{number} beside {second}" in lines_of(app)[0]
        assert "Rose from 0.47 to 0.70" in " ".join(text_of(app).split())
        assert "5 Kitchen sockets            was 1 Kitchen sockets" in text_of(app)
        await pilot.press("enter")
        assert isinstance(app.screen, ReadingsScreen)
        assert "+0.23" in text_of(app)
        await pilot.press("escape", "down", "m", "down", "down", "enter")
        await pilot.pause()
        assert "was on no circuit" in text_of(app)
        assert "Deserves a question" not in text_of(app)
        await pilot.press("right")
        assert f"{number} beside {first}" in lines_of(app)[0]
        await pilot.press("escape")
        await pilot.pause()
        assert "Last time" not in text_of(app)
    app.services.log.close()


async def test_details_are_carried_over_on_request_and_no_reading_comes_along(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    log = app.services.log
    earlier = issued_on(log, 2021, complete_certificate(sign=False))
    number = log.create(fresh(FormSet.EICR), who="ned", at=app.services.now()).number
    async with app.run_test(size=(80, 24)) as pilot:
        await app.push_screen(screen_for(ToJob(number, JobPage.DETAILS), app.services))
        await pilot.pause()
        await pilot.press("ctrl+k")
        assert "No earlier paper on this address is known" in text_of(app)
        assert "L Link" in lines_of(app)[-1]
        assert "Enter" not in lines_of(app)[-1]
        await pilot.press("l", *"a-77", "enter")
        assert "no job" in text_of(app)
        await pilot.press("l", *earlier.casefold(), "enter")
        await pilot.pause()
        assert "Enter Readings" in lines_of(app)[-1]
        await pilot.press("c", "y")
        await pilot.pause()
        job = log.load(number)
        assert [circuit.description for _, circuit in job.circuits()] == ["Kitchen sockets", "Lights, ground floor"]
        assert [circuit.zs.typed for _, circuit in job.circuits()] == ["", ""]
        await pilot.press("escape", "ctrl+u")
        assert [circuit.description for _, circuit in log.load(number).circuits()] == [""]
    log.close()


async def test_minor_works_takes_its_circuit_once_that_was_picked_and_says_how_much_came(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    log = app.services.log
    issued_on(log, 2021, complete_certificate(sign=False))
    place = {"address": "The Old Forge, 12 Tanner's Row", "postcode": "WQ7 1AB"}
    number = log.create(
        entered(fresh(FormSet.MEIWC), place, section="premises"), who="ned", at=app.services.now()
    ).number
    async with app.run_test(size=(80, 24)) as pilot:
        await app.push_screen(screen_for(ToJob(number, JobPage.DETAILS), app.services))
        await pilot.pause()
        await pilot.press("ctrl+k")
        await pilot.pause()
        assert "C Carry over" in lines_of(app)[-1]
        await pilot.press("c")
        assert "say first with M" in text_of(app)
        await pilot.press("escape", "m", "home", "down", "enter", "c")
        await pilot.pause()
        assert "circuit 2 Lights, ground floor" in " ".join(text_of(app).split())
        await pilot.press("y")
        await pilot.pause()
        assert "not confirmed yet, check each on site" in lines_of(app)[-2]
        ((_, circuit),) = log.load(number).circuits()
        assert (circuit.description, circuit.zs.typed) == ("Lights, ground floor", "")
        await pilot.press("c", "y")
        await pilot.pause()
        assert "Nothing carried over" in lines_of(app)[-2]
    log.close()
