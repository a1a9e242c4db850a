"""The registers on the screen: typed once, taken by a few letters, and asked before somebody signs."""

from pathlib import Path

from domain.forms.form_set import FormSet
from domain.job.signature import Role
from domain.place import Place
from domain.register.entries import Instrument, KnownClient, KnownFirm, Person, RegisterKind
from tests.builders import AT, INSPECTOR, complete_minor_works, entered, fresh
from tests.tui.screens.job_at import at_step, step_on
from tests.tui.screens.services import app_in
from tests.tui.screens.shown import text_of
from tui.job_page import JobPage
from tui.screens.register import RegisterScreen


async def test_a_person_is_entered_once_and_an_instrument_keeps_its_cross_checks(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    log = app.services.log
    log.register(Instrument(serial="MFT-20417", due="01/03/2026"), who=INSPECTOR, at=AT)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f5", "n", *"Agnes Quill", "tab", "tab", "tab", *"plumbing", "ctrl+o")
        assert "is nothing that is signed" in text_of(app)
        await pilot.press("ctrl+u", *"insp, rep", "ctrl+o")
        (person,) = log.registered(RegisterKind.PERSON)
        assert person.entry == Person(name="Agnes Quill", signs=(Role.INSPECTION, Role.INSPECTED))
        await pilot.press("left")
        assert "Calibration was due on 1 March 2026" in text_of(app)
        await pilot.press("x", *"0.50 ohm", "tab", *"0.51", "ctrl+o")
        (tester,) = log.registered(RegisterKind.INSTRUMENT)
        assert [(check.known, check.read) for check in tester.entry.checks] == [("0.50 ohm", "0.51")]
        await pilot.press("w", "y")
        assert log.registered(RegisterKind.INSTRUMENT) == ()
        await pilot.press("v", "w")
        assert log.registered(RegisterKind.INSTRUMENT)[0].entry == tester.entry
    log.close()


async def test_two_entries_of_one_firm_are_merged_by_picking_the_one_that_stays(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    log = app.services.log
    log.register(KnownFirm(name="Harebell Electric", contact="01632 960 118"), who=INSPECTOR, at=AT)
    log.register(KnownFirm(name="Harebell Electrical"), who=INSPECTOR, at=AT)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f5", "right", "home", "m", "enter")
        assert "It is that entry itself" in text_of(app)
        await pilot.press("home", "m", "down", "enter")
        assert "Offered no more: Harebell Electric." in text_of(app)
        await pilot.press("y")
        assert "Merged" in text_of(app)
    (firm,) = log.registered(RegisterKind.FIRM)
    assert firm.entry == KnownFirm(name="Harebell Electrical", contact="01632 960 118")
    log.close()


async def test_a_few_letters_and_one_key_fill_the_client(tmp_path: Path) -> None:
    async with at_step(JobPage.DETAILS, fresh(FormSet.EICR), tmp_path, place=Place(section="client", box="name")) as at:
        at.log.register(
            KnownClient(name="Hester Drumlin", address="3 Pepperpot Close", postcode="WQ4 9LP"), who=INSPECTOR, at=AT
        )
        await at.type("drum")
        assert "Ctrl+Y takes: Hester Drumlin, 3 Pepperpot Close, WQ4 9LP" in at.panel
        await at.press("ctrl+y")
        assert (at.job.client.name, at.job.client.postcode) == ("Hester Drumlin", "WQ4 9LP")
        await at.press("delete", "ctrl+y")
        assert isinstance(at.app.screen, RegisterScreen)
        await at.press("enter")
        assert at.job.client.name == "Hester Drumlin"


async def test_the_register_of_people_refuses_a_trainee_and_asks_about_a_stranger(tmp_path: Path) -> None:
    async with at_step(JobPage.ISSUE, complete_minor_works(sign=False), tmp_path) as at:
        at.log.register(Person(name="Ned Farthing"), who=INSPECTOR, at=AT)
        at.log.register(Person(name=INSPECTOR, position="Engineer", signs=(Role.MINOR_WORKS,)), who=INSPECTOR, at=AT)
        await at.press("enter", *"Ned Farthing", "ctrl+o")
        assert "in training" in at.said
        await at.press("enter", *"Agnes Quill", "ctrl+o", "n")
        assert at.job.signatures == ()
        await at.press("enter", *INSPECTOR.casefold(), "ctrl+o")
        assert [(each.name, each.position) for each in at.job.signatures] == [(INSPECTOR.casefold(), "Engineer")]


async def test_a_signature_the_register_has_come_to_refuse_holds_the_paper_on_every_step(tmp_path: Path) -> None:
    async with at_step(JobPage.ISSUE, complete_minor_works(), tmp_path) as at:
        at.log.register(Person(name=INSPECTOR), who=INSPECTOR, at=AT)
        await at.press("i")
        assert "1 thing to settle" in at.said
        assert "is in training" in at.text
        await at.press("f8")
        assert "Signed by somebody who may not (1)" in at.text
        assert "may not be signed so" in at.line_with("A-0001"), "and not ready to issue"
        await at.press("enter")
        assert step_on(at.app) is JobPage.ISSUE
        assert at.line_with("Design, construction").startswith(">✗")
        await at.press("delete")
        assert at.job.signatures == ()


async def test_the_clients_own_address_is_taken_for_the_installation_with_one_key(tmp_path: Path) -> None:
    client = {"name": "Hester Drumlin", "address": "3 Pepperpot Close\nWetherham", "postcode": "WQ4 9LP"}
    job = entered(fresh(FormSet.EIC), client, section="client")
    async with at_step(JobPage.DETAILS, job, tmp_path, place=Place(section="premises", box="address")) as at:
        assert "Ctrl+Y takes the client's: 3 Pepperpot Close, Wetherham, WQ4 9LP" in at.panel
        await at.press("ctrl+y")
        assert (at.job.premises.address, at.job.premises.postcode) == (client["address"], client["postcode"])
        assert at.job.premises.occupier == ""
        await at.press("ctrl+u")
        assert (at.job.premises.address, at.job.premises.postcode) == ("", "")
        await at.type("The Old Forge", "enter")
        await at.press("ctrl+y")
        assert at.job.premises.address == "The Old Forge"
        assert at.job.premises.postcode == client["postcode"]
        await at.press("ctrl+y")
        assert at.job.premises.occupier == client["name"]


async def test_a_person_sets_a_signing_phrase_unseen_and_gives_it_before_another(tmp_path: Path) -> None:
    app = app_in(tmp_path)
    log = app.services.log
    log.register(Person(name=INSPECTOR, signs=(Role.INSPECTED,)), who=INSPECTOR, at=AT)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f5", "p", *"three brown owls", "tab", *"three brown owl")
        assert "owl" not in text_of(app)
        await pilot.press("ctrl+o")
        assert "The two were not the same" in text_of(app)
        assert not log.phrase_asked(INSPECTOR)
        await pilot.press("p", *"three brown owls", "tab", *"three brown owls", "ctrl+o")
        assert f"nobody signs as {INSPECTOR} without it" in " ".join(text_of(app).split())
        assert log.phrase_asked(INSPECTOR)
        await pilot.press("p", *"no owls", "tab", *"another phrase", "tab", *"another phrase", "ctrl+o")
        assert "That is not the signing phrase" in text_of(app)
    log.close()
