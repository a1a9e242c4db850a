"""What people settle between an office and its laptops: what a choice is about, and what it comes to."""

import pytest

from domain.gate.assessment import Refusal
from domain.gate.issued_paper import IssuedPaper
from domain.laptops.matter import MatterKind
from domain.laptops.operation import Act
from domain.log.job_log import JobLogError
from domain.log.laptops import quiet_sign
from tests.builders import INSPECTOR
from tests.storage.issuing import LATER, WHO, bind, sign
from tests.storage.laptops.firms import SmallFirm
from tests.storage.laptops.test_out_and_back import begun, renamed


def test_a_job_out_with_a_lost_laptop_goes_on_as_a_copy_and_two_papers_of_it_are_told(firm: SmallFirm) -> None:
    number = begun(firm)
    laptop = firm.buy("HE")
    firm.lend(number, "HE")
    office = firm.firm(firm.office)
    office.declare(Act.LOST, "HE", at=firm.now)
    (stranded,) = office.matters()

    assert office.settle(stranded, 1, who=WHO, at=firm.now) == ""
    sign(firm.office, "A-0002")
    for log, each in ((firm.office, "A-0002"), (laptop, number)):
        assert isinstance(log.issue(each, by=INSPECTOR, at=LATER, bind=bind), IssuedPaper)
    firm.meet("HE")

    told = {(matter.kind, matter.job, matter.other) for matter in office.matters()}
    assert told == {(MatterKind.COPIED, number, "A-0002"), (MatterKind.TWO_PAPERS, number, "A-0002")}


def test_one_visit_begun_on_two_laptops_is_told_and_the_second_may_be_laid_aside(firm: SmallFirm) -> None:
    first, second = firm.buy("HE"), firm.buy("MR")
    for log in (first, second):
        begun(firm, log)
    firm.meet("HE")
    firm.meet("MR")

    (matter,) = firm.firm(firm.office).matters()

    assert (matter.kind, matter.job, matter.other) == (MatterKind.TWINS, "HE-0001", "MR-0001")
    assert firm.firm(firm.office).choices(matter) == ("lay MR-0001 aside", "both stand")
    assert "out with MR" in firm.firm(firm.office).settle(matter, 1, who=WHO, at=firm.now)
    firm.firm(second).bring_back("MR-0001", at=firm.now)
    firm.meet("MR")
    assert firm.firm(firm.office).settle(matter, 1, who=WHO, at=firm.now) == ""
    assert firm.office.load("MR-0001").laid_aside
    assert firm.firm(firm.office).matters() == ()


def test_of_two_that_look_like_one_visit_the_one_without_a_paper_is_laid_aside(firm: SmallFirm) -> None:
    number = begun(firm)
    laptop = firm.buy("HE", "Hester Ekwall")
    theirs = begun(firm, laptop)
    assert isinstance(laptop.issue(theirs, by=INSPECTOR, at=LATER, bind=bind), IssuedPaper)
    firm.meet("HE")
    office = firm.firm(firm.office)
    (matter,) = office.matters()

    assert (theirs, office.choices(matter)[0]) == ("HE-0001", f"lay {number} aside")
    assert office.settle(matter, 1, who=WHO, at=firm.now) == ""
    assert firm.office.load(number).laid_aside


def test_whoever_waits_for_a_lost_laptop_is_asked_again_once_they_say_that_it_is_lost(firm: SmallFirm) -> None:
    number = begun(firm)
    firm.buy("HE")
    firm.lend(number, "HE")
    office = firm.firm(firm.office)
    office.declare(Act.LOST, "HE", at=firm.now)
    assert office.settle(office.matters()[0], 2, who=WHO, at=firm.now) == ""
    assert office.matters() == ()

    office.declare(Act.LOST, "HE", at=firm.now)

    assert [each.kind for each in office.matters()] == [MatterKind.STRANDED]
    assert office.settle(office.matters()[0], 1, who=WHO, at=firm.now) == ""
    assert office.copy_of(number) == "A-0002"
    assert "goes on as A-0002" in renamed(firm.office, number).says
    office.declare(Act.LOST, "HE", at=firm.now)
    assert office.matters() == ()


def test_a_paper_from_a_laptop_that_was_shut_out_is_kept_and_counts_once_a_person_lets_it(firm: SmallFirm) -> None:
    """Until then the others hear of it all the same, and lack nothing that counts."""
    laptop, other = firm.buy("HE", "Hester Ekwall"), firm.buy("MR")
    office = firm.firm(firm.office)
    office.declare(Act.SHUT, "HE", at=firm.now)
    theirs = begun(firm, laptop)
    paper = laptop.issue(theirs, by=INSPECTOR, at=LATER, bind=bind)
    assert isinstance(paper, IssuedPaper)
    firm.hand(laptop, firm.office)
    firm.meet("MR")
    (matter,) = office.matters()
    assert (matter.kind, firm.office.load(theirs), other.load(theirs)) == (MatterKind.ASIDE, None, None)
    assert office.what_was_done(matter) == ("Begun", "Issued")

    assert office.settle(matter, 1, who=WHO, at=firm.now) == ""
    firm.meet("MR")

    for log in (firm.office, other):
        assert log.paper(theirs) == laptop.paper(theirs)
    assert firm.tended("A") == firm.tended("MR") == []


def test_a_laptop_that_hears_it_was_shut_out_says_so_everywhere_and_issues_and_borrows_nothing_more(
    firm: SmallFirm,
) -> None:
    number = begun(firm)
    laptop = firm.buy("HE", "Hester Ekwall")
    theirs = begun(firm, laptop)
    firm.firm(firm.office).declare(Act.SHUT, "HE", at=firm.now)
    firm.hand(firm.office, laptop)

    assert "HE was shut out at the office; 1 edit not at the office" in quiet_sign(firm.firm(laptop), firm.now)
    refused = laptop.issue(theirs, by=INSPECTOR, at=LATER, bind=bind)
    assert isinstance(refused, Refusal)
    assert "shut this laptop out" in refused.reasons[0].says
    with pytest.raises(JobLogError, match="have the office make a new first file"):
        firm.firm(laptop).take_out(number, at=firm.now)
    with pytest.raises(JobLogError, match="make it a new first file"):
        firm.firm(firm.office).take_out(number, to="HE", at=firm.now)


def test_what_is_set_aside_of_a_job_that_does_not_come_back_goes_into_the_copy_it_goes_on_as(firm: SmallFirm) -> None:
    number = begun(firm)
    laptop = firm.buy("HE", "Hester Ekwall")
    firm.lend(number, "HE")
    office = firm.firm(firm.office)
    office.declare(Act.SHUT, "HE", at=firm.now)
    renamed(laptop, number, "Hester Quill")
    firm.hand(laptop, firm.office)
    matters = {each.kind: each for each in office.matters()}
    aside = matters[MatterKind.ASIDE]
    assert "Hester Quill" in office.what_was_done(aside)[0]
    assert "go on with a copy of it" in office.settle(aside, 1, who=WHO, at=firm.now)

    assert office.settle(matters[MatterKind.STRANDED], 1, who=WHO, at=firm.now) == ""

    copy = office.copy_of(number)
    assert office.choices(aside)[0] == f"put it into {copy}, as which the job goes on"
    assert office.settle(aside, 1, who=WHO, at=firm.now) == ""
    assert firm.office.load(copy).client.name == "Hester Quill"
    assert (firm.office.trail(copy)[-1].who, firm.office.trail(copy)[-1].what) == (
        laptop.trail(number)[-1].who,
        laptop.trail(number)[-1].what,
    )
    assert firm.office.load(number).client.name != "Hester Quill"
    assert not [each for each in office.matters() if each.kind is MatterKind.ASIDE]


def test_whoever_waits_for_a_job_of_a_log_that_was_put_back_is_asked_again_once_they_say_that_it_is_lost(
    firm: SmallFirm,
) -> None:
    laptop = firm.buy("HE", "Hester Ekwall")
    number = begun(firm, laptop)
    firm.meet("HE")
    kept = firm.save("HE")
    renamed(firm.logs["HE"], number)
    firm.meet("HE")
    firm.put_back("HE", kept)
    firm.meet("HE")
    office = firm.firm(firm.office)
    (stranded,) = [each for each in office.matters() if each.kind is MatterKind.STRANDED]
    office.settle(stranded, 2, who=WHO, at=firm.now)
    assert office.matters() == ()

    office.declare(Act.LOST, "HE", at=firm.now)

    assert [each.job for each in office.matters() if each.kind is MatterKind.STRANDED] == [number]
