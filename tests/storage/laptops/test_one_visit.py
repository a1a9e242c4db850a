"""Two people test two boards of one installation on one day, each on a laptop; it ends in one paper."""

import pytest

from domain.editing.commands import Declined
from domain.inspection.observation import Code
from domain.job.job import Job
from domain.laptops.matter import MatterKind
from domain.log.job_log import Query
from tests.builders import AT, complete_minor_works, complete_report, enter
from tests.storage.issuing import WHO
from tests.storage.laptops.firms import SmallFirm


def second_board(job: Job) -> Job:
    """The same visit, with another board under its own name."""
    boards = tuple(each.model_copy(update={"designation": "DB2", "tested_by": "Mungo Rooke"}) for each in job.boards)
    return job.model_copy(update={"boards": boards, "signatures": ()})


@pytest.fixture
def visited(firm: SmallFirm) -> tuple[SmallFirm, str, str]:
    """The job of the office was lent to Hester; Mungo began one of his own for his board; both are back."""
    number = firm.office.create(complete_report(), who=WHO, at=AT).number
    hester, mungo = firm.buy("HE", "Hester Ekwall"), firm.buy("MR", "Mungo Rooke")
    firm.lend(number, "HE")
    other = mungo.create(second_board(complete_report(Code.C2)), who="mungo", at=AT).number
    hester.edit(number, enter("client", "name", "Hester Quill"), who="hester", at=AT)
    firm.meet("MR")
    assert "out with" in firm.office.take_boards(number, other, who=WHO, at=AT).says
    for letters, log, job in (("HE", hester, number), ("MR", mungo, other)):
        firm.firm(log).bring_back(job, at=firm.now)
        firm.meet(letters)
    return firm, number, other


def test_the_boards_of_both_come_into_one_job_with_all_that_was_found_and_the_other_is_laid_aside(visited) -> None:
    firm, number, other = visited
    theirs = firm.office.load(other)
    (matter,) = firm.firm(firm.office).matters()
    assert matter.kind is MatterKind.TWINS

    taken = firm.office.take_boards(number, other, who=WHO, at=AT)

    job = firm.office.load(number)
    assert not isinstance(taken, Declined)
    assert [board.designation for board in job.boards] == ["DB1", "DB2"]
    assert [c.zs for c in job.boards[1].circuits] == [c.zs for c in theirs.boards[0].circuits]
    assert [(each.finding, each.code) for each in job.observations] == [
        (each.finding, each.code) for each in theirs.observations
    ]
    assert {each.about.board for each in job.observations if each.about and each.about.board} <= {job.boards[1].id}
    assert job.signatures == ()
    assert firm.office.trail(number)[-1].what == f"Taken from {other} as tested there, with 2 circuits: DB2"
    assert firm.office.load(other).laid_aside
    assert len(firm.office.trail(other)) == 2
    assert other not in {line.number for line in firm.office.find(Query())}
    assert firm.firm(firm.office).matters() == ()


def test_it_reaches_the_laptops_as_it_stands_and_undo_takes_the_boards_out_again(visited) -> None:
    firm, number, other = visited
    firm.office.take_boards(number, other, who=WHO, at=AT)
    for letters in ("HE", "MR"):
        firm.meet(letters)
        assert firm.logs[letters].load(number) == firm.office.load(number)
        assert firm.logs[letters].load(other).laid_aside

    firm.office.undo(number, who=WHO, at=AT)

    assert [board.designation for board in firm.office.load(number).boards] == ["DB1"]
    assert firm.tended("A") == []


def test_boards_are_not_taken_twice_nor_from_a_paper_another_address_or_other_papers(firm: SmallFirm) -> None:
    log = firm.office
    number, other = (log.create(each, who=WHO, at=AT).number for each in (complete_report(),) * 2)
    third = log.create(complete_minor_works(), who=WHO, at=AT).number
    assert "rename or remove one" in log.take_boards(number, other, who=WHO, at=AT).says
    assert "ends in other papers" in log.take_boards(number, third, who=WHO, at=AT).says
    assert "Name two jobs" in log.take_boards(number, number, who=WHO, at=AT).says
    log.edit(other, enter("premises", "address", "9 Other Street"), who=WHO, at=AT)
    assert "is of another address" in log.take_boards(number, other, who=WHO, at=AT).says
    assert not log.load(other).laid_aside


def test_of_one_visit_begun_at_the_office_and_on_a_laptop_the_one_of_the_office_goes_on(firm: SmallFirm) -> None:
    firm.office.begin_numbers("OF")
    number = firm.office.create(complete_report(), who=WHO, at=AT).number
    laptop = firm.buy("HE")
    laptop.create(second_board(complete_report()), who=WHO, at=AT)
    firm.meet("HE")
    (matter,) = firm.firm(firm.office).matters()
    assert firm.firm(firm.office).choices(matter)[0] == "lay HE-0001 aside"
    assert matter.other == number


def test_whichever_others_the_job_that_is_laid_aside_was_held_against_nobody_is_asked_of_it_any_more(visited) -> None:
    firm, number, other = visited
    third = firm.buy("TO", "Tamsin Orchard").create(complete_report(), who="tamsin", at=AT).number
    firm.meet("TO")
    firm.meet("MR")
    asked = {(each.job, each.other) for each in firm.firm(firm.office).matters()}
    assert asked == {(number, other), (number, third), (other, third)}

    firm.office.take_boards(number, other, who=WHO, at=AT)

    (left,) = firm.firm(firm.office).matters()
    assert (left.job, left.other) == (number, third)
    for letters in ("HE", "MR", "TO"):
        firm.meet(letters)
    assert len(firm.firm(firm.office).matters()) == 1
