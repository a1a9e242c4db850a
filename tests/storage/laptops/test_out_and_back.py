"""Jobs taken out of the office, worked on where it cannot be reached, and brought back; on real logs."""

from datetime import timedelta

import pytest

from domain.editing.commands import Declined
from domain.gate.assessment import Refusal
from domain.gate.issued_paper import IssuedPaper
from domain.laptops.bundle import GapError
from domain.laptops.matter import MatterKind
from domain.laptops.operation import Act
from domain.log.job_log import JobLogError, State
from domain.log.laptops import unheard_in_words
from domain.register.entries import Person, RegisterKind
from tests.builders import AT, INSPECTOR, complete_minor_works, enter
from tests.storage.issuing import LATER, WHO, bind
from tests.storage.laptops.firms import SmallFirm


def begun(firm: SmallFirm, log=None) -> str:
    return (log or firm.office).create(complete_minor_works(), who=WHO, at=AT).number


def renamed(log, number: str, name: str = "Hester Quill"):
    return log.edit(number, enter("client", "name", name), who=WHO, at=AT)


def test_a_job_that_is_out_is_changed_there_alone_and_comes_back_with_every_edit_of_its_trail(firm: SmallFirm) -> None:
    number = begun(firm)
    laptop = firm.buy("HE", "Hester Ekwall")
    firm.lend(number, "HE")

    assert renamed(laptop, number).client.name == "Hester Quill"
    refused = renamed(firm.office, number)

    assert isinstance(refused, Declined)
    assert refused.says == f"{number} can only be read here: it is out with Hester Ekwall since {AT:%d/%m/%Y %H:%M} GMT"
    assert "read only" in firm.firm(firm.office).sign(number, at=AT)
    assert firm.firm(laptop).sign(number, at=AT) == "out with you"
    assert isinstance(firm.office.undo(number, who=WHO, at=AT), Declined)
    firm.firm(laptop).bring_back(number, at=firm.now)
    firm.meet("HE")
    assert firm.office.load(number) == laptop.load(number)
    assert [line.what for line in firm.office.trail(number)] == [line.what for line in laptop.trail(number)]
    assert renamed(firm.office, number, "Ansel Birch").client.name == "Ansel Birch"
    assert isinstance(renamed(laptop, number), Declined)


def test_a_laptop_that_has_not_heard_of_a_job_says_so_and_what_to_do(firm: SmallFirm) -> None:
    laptop = firm.buy("HE")
    number = begun(firm)
    with pytest.raises(JobLogError, match=f"This laptop has not heard of {number}. Exchange with the office first"):
        firm.firm(laptop).take_out(number, at=firm.now)
    for log, unknown in ((laptop, "HE-0009"), (firm.office, "A-0009")):
        with pytest.raises(JobLogError, match=f"There is no job '{unknown}' in this log"):
            firm.firm(log).take_out(unknown, to="HE", at=firm.now)
    firm.meet("HE")
    assert "is asked for" in firm.firm(laptop).take_out(number, at=firm.now)


@pytest.mark.parametrize(
    "is_lost_first", [False, True], ids=["the paper came, then it was lost", "it was lost, then the paper came"]
)
def test_of_a_laptop_that_is_lost_nobody_is_asked_about_a_job_whose_paper_is_at_the_office(
    firm: SmallFirm, is_lost_first: bool
) -> None:
    number, other = begun(firm), begun(firm)
    laptop = firm.buy("HE")
    for each in (number, other):
        firm.lend(each, "HE")
    assert isinstance(laptop.issue(number, by=INSPECTOR, at=LATER, bind=bind), IssuedPaper)
    for lost in (is_lost_first, not is_lost_first):
        if lost:
            firm.firm(firm.office).declare(Act.LOST, "HE", at=firm.now)
        else:
            firm.meet("HE")
    assert [(each.kind, each.job) for each in firm.firm(firm.office).matters()] == [(MatterKind.STRANDED, other)]
    firm.firm(firm.office).declare(Act.LOST, "HE", at=firm.now)
    assert [each.job for each in firm.firm(firm.office).matters()] == [other]


def test_a_laptop_asks_for_a_job_and_has_it_with_the_next_bundle_unless_somebody_else_has_it(firm: SmallFirm) -> None:
    number = begun(firm)
    first, second = firm.buy("HE"), firm.buy("MR")
    for laptop in (first, second):
        firm.firm(laptop).take_out(number, at=firm.now)

    firm.meet("HE")
    firm.meet("MR")

    assert firm.firm(first).sign(number, at=AT) == "out with you"
    assert "out with HE" in firm.firm(second).sign(number, at=AT)
    with pytest.raises(JobLogError, match="out with HE"):
        firm.firm(second).take_out(number, at=firm.now)


def test_a_job_begun_and_issued_on_a_laptop_is_the_same_paper_at_the_office_and_both_logs_are_whole(
    firm: SmallFirm,
) -> None:
    laptop = firm.buy("HE")
    number = begun(firm, laptop)
    assert number == "HE-0001"
    assert isinstance(laptop.issue(number, by=INSPECTOR, at=LATER, bind=bind), IssuedPaper)

    firm.meet("HE")

    assert firm.office.paper(number) == laptop.paper(number)
    assert firm.office.line(number).state is State.ISSUED
    assert [firm.tended(letters) for letters in ("A", "HE")] == [[], []]


def test_what_is_sent_twice_is_passed_over_and_a_bundle_after_a_missing_one_waits(firm: SmallFirm) -> None:
    number = begun(firm)
    laptop = firm.buy("HE")
    firm.lend(number, "HE")
    ours = firm.firm(laptop)
    device = firm.firm(firm.office).own.device
    renamed(laptop, number)
    first = ours.bundle_for(device)
    kept = tuple(first.operations)
    renamed(laptop, number, "Ansel Birch")
    later = [each for each in ours.bundle_for(device).operations if each not in kept]

    with pytest.raises(GapError):
        firm.firm(firm.office).take_in(first._replace(operations=later), laptop.paper, at=firm.now)
    assert firm.office.version(number) == 1
    taken = firm.hand(laptop, firm.office)
    again = firm.firm(firm.office).take_in(first._replace(operations=kept), laptop.paper, at=firm.now)

    assert (taken.new, again.new, again.repeated) == (2, 0, len(kept))
    assert firm.office.version(number) == 3


def test_edits_that_are_not_at_the_office_are_counted_until_it_has_said_that_it_has_them(firm: SmallFirm) -> None:
    number = begun(firm)
    laptop = firm.buy("HE")
    firm.lend(number, "HE")
    firm.meet("HE")
    for name in ("Hester Quill", "Ansel Birch"):
        renamed(laptop, number, name)

    told = unheard_in_words(firm.firm(laptop).unheard(), AT + timedelta(days=2))

    assert told == f"2 edits not at the office since {AT:%A}"
    firm.meet("HE")
    firm.hand(firm.office, laptop)
    assert unheard_in_words(firm.firm(laptop).unheard(), AT) == ""


def test_a_laptop_that_has_not_heard_from_the_office_for_fourteen_days_issues_nothing(firm: SmallFirm) -> None:
    laptop = firm.buy("HE")
    number = begun(firm, laptop)

    refusal = laptop.issue(number, by=INSPECTOR, at=AT + timedelta(days=15), bind=bind)

    assert isinstance(refusal, Refusal)
    assert "has not heard from the office for 14 days" in refusal.reasons[0].says
    assert refusal.reasons[0].kind == "not to be issued here"
    assert isinstance(laptop.issue(number, by=INSPECTOR, at=AT + timedelta(days=13), bind=bind), IssuedPaper)


def test_people_come_from_the_office_alone_and_reach_the_laptop(firm: SmallFirm) -> None:
    laptop = firm.buy("HE")
    person = Person(name="Piers Aldous")

    with pytest.raises(JobLogError, match="come from the office"):
        laptop.register(person, who=WHO, at=AT)
    firm.office.register(person, who=WHO, at=AT)
    assert "come from the office" in laptop.set_phrase("Piers Aldous", "four quiet words here", who=WHO, at=AT)
    firm.meet("HE")

    assert [kept.entry.name for kept in laptop.registered(RegisterKind.PERSON)] == ["Piers Aldous"]


def test_a_log_put_back_from_a_copy_goes_on_with_other_letters_and_what_is_gone_is_counted(firm: SmallFirm) -> None:
    number = begun(firm)
    laptop = firm.buy("HE", "Hester Ekwall")
    firm.lend(number, "HE")
    saved = firm.save("HE")
    laptop = firm.logs["HE"]
    for name in ("Hester Quill", "Ansel Birch", "Piers Aldous"):
        renamed(laptop, number, name)

    laptop = firm.put_back("HE", saved)

    assert begun(firm, laptop) == "HEA-0001"
    assert "before its log was put back" in renamed(laptop, number).says
    firm.meet("HE")
    kinds = {(matter.kind, matter.job, matter.last - matter.first + 1) for matter in firm.firm(firm.office).matters()}
    assert kinds == {
        (MatterKind.STRANDED, number, 1),
        (MatterKind.LOST_WORK, "", 3),
        (MatterKind.TWINS, number, 1),
    }


def test_an_office_put_back_from_a_copy_waits_for_its_laptops_and_has_the_end_of_its_log_from_them(
    firm: SmallFirm,
) -> None:
    number = begun(firm)
    laptop = firm.buy("HE", "Hester Ekwall")
    saved = firm.save("A")
    renamed(firm.office, number)
    firm.meet("HE")

    office = firm.put_back("A", saved)

    assert office.load(number).client.name != "Hester Quill"
    assert "Hester Ekwall may know more" in renamed(office, number).says
    for _ in range(2):
        firm.hand(office, laptop)
        firm.hand(laptop, office)
    assert office.load(number).client.name == "Hester Quill"
    assert renamed(office, number, "Ansel Birch").client.name == "Ansel Birch"
    firm.meet("HE")
    assert laptop.load(number) == office.load(number)


def test_the_office_changes_for_how_many_days_a_laptop_issues_alone_and_nothing_else_of_it(firm: SmallFirm) -> None:
    laptop = firm.buy("HE", "Hester Ekwall")
    before = firm.firm(laptop).own
    number = begun(firm, laptop)
    firm.firm(firm.office).allow_days("he", 5, at=firm.now)
    firm.meet("HE")

    refusal = laptop.issue(number, by=INSPECTOR, at=firm.now + timedelta(days=6), bind=bind)

    assert isinstance(refusal, Refusal)
    assert "has not heard from the office for 5 days" in refusal.reasons[0].says
    assert before is not None
    assert firm.firm(laptop).own == before._replace(days=5, key=firm.firm(firm.office).named("HE").key)
    assert isinstance(laptop.issue(number, by=INSPECTOR, at=firm.now + timedelta(days=4), bind=bind), IssuedPaper)
    assert firm.tended("A") == []


def test_what_comes_from_a_laptop_that_was_shut_out_waits_for_a_person_who_may_put_it_in(firm: SmallFirm) -> None:
    number = begun(firm)
    laptop = firm.buy("HE")
    firm.lend(number, "HE")
    renamed(laptop, number)
    firm.firm(firm.office).declare(Act.SHUT, "HE", at=firm.now)
    before = firm.office.load(number)

    taken = firm.hand(laptop, firm.office)

    assert taken.aside == 1
    assert firm.office.load(number) == before
    matters = firm.firm(firm.office).matters()
    assert {matter.kind for matter in matters} == {MatterKind.STRANDED, MatterKind.ASIDE}


def test_what_was_set_aside_cannot_be_put_into_a_job_that_is_out(firm: SmallFirm) -> None:
    number = begun(firm)
    laptop = firm.buy("HE")
    firm.lend(number, "HE")
    renamed(laptop, number)
    firm.firm(laptop).bring_back(number, at=firm.now)
    firm.firm(firm.office).declare(Act.SHUT, "HE", at=firm.now)
    firm.hand(laptop, firm.office)
    aside = next(each for each in firm.firm(firm.office).matters() if each.kind is MatterKind.ASIDE)

    assert "out" in firm.firm(firm.office).settle(aside, 1, who=WHO, at=firm.now)
    assert firm.office.load(number).client.name != "Hester Quill"


def test_a_paper_signed_by_somebody_struck_off_before_it_came_stays_issued_and_is_told(firm: SmallFirm) -> None:
    laptop = firm.buy("HE")
    number = begun(firm, laptop)
    assert isinstance(laptop.issue(number, by=INSPECTOR, at=LATER, bind=bind), IssuedPaper)
    firm.office.register(Person(name=INSPECTOR, signs=()), who=WHO, at=AT)

    firm.meet("HE")

    assert firm.office.line(number).state is State.ISSUED
    assert [(each.kind, each.job) for each in firm.firm(firm.office).matters()] == [(MatterKind.SIGNER, number)]
    assert firm.tended("A") == []


def test_a_job_of_a_laptop_that_was_shut_out_is_put_in_where_a_person_says_so_and_reaches_the_others(
    firm: SmallFirm,
) -> None:
    laptop, other = firm.buy("HE"), firm.buy("MR")
    office = firm.firm(firm.office)
    office.declare(Act.SHUT, "HE", at=firm.now)
    number = begun(firm, laptop)
    renamed(laptop, number)
    firm.hand(laptop, firm.office)
    assert firm.office.load(number) is None
    (aside,) = office.matters()

    assert office.settle(aside, 1, who=WHO, at=firm.now) == ""
    firm.meet("MR")

    assert firm.office.load(number) == other.load(number) == laptop.load(number)
    assert office.matters() == ()
    assert renamed(firm.office, number, "Ansel Birch").client.name == "Ansel Birch"
