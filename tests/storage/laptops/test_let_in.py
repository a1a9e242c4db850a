"""What the office lets in after all, as it comes to laptops."""

from domain.gate.issued_paper import IssuedPaper
from domain.laptops.operation import Act
from domain.log.use_cases.heard_jobs import HeardJobs
from tests.builders import INSPECTOR
from tests.storage.issuing import LATER, bind, sign
from tests.storage.laptops.firms import SmallFirm
from tests.storage.laptops.test_out_and_back import begun, renamed


def test_a_paper_the_office_lets_in_after_all_comes_to_a_laptop_that_lacks_what_was_done_before_it(
    firm: SmallFirm,
) -> None:
    number = begun(firm)
    laptop = firm.buy("HE")
    renamed(firm.office, number)
    sign(firm.office, number)
    paper = firm.office.issue(number, by=INSPECTOR, at=LATER, bind=bind)
    assert isinstance(paper, IssuedPaper)
    exchange = firm.office._store.exchange
    (issue,) = (each for each in exchange.following({}) if each.act is Act.ISSUE)
    store = laptop._store

    with store.transaction(number):
        HeardJobs(store, firm.office.paper, LATER).admit(issue)

    assert laptop.load(number) == firm.office.load(number)
    assert laptop.paper(number) == firm.office.paper(number)
