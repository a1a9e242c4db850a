"""What long towns found untold or unlike, each as small as it can be."""

from domain.laptops.bundle import Bundle
from domain.laptops.holding import Holding
from domain.laptops.making import begin_office, enrol, tell_copies
from domain.laptops.matter import MatterKind
from domain.laptops.operation import Act
from domain.laptops.receiving import bundle_for
from tests.laptops.machine import Machine, Paperwork
from tests.laptops.memory_exchange import MemoryExchange


def office_and_laptop() -> tuple[Machine, Machine]:
    office = Machine(MemoryExchange(device="d1"), Paperwork(), "A")
    begin_office(office.store, "d1", "A")
    enrol(office.store, "d2", "LAA", at="")
    store = office.store.copied()
    store.device = "d2"
    return office, Machine(store, office.jobs.copied(), "LAA")


def test_a_copy_that_went_on_as_another_copy_is_told_with_the_paper_of_either() -> None:
    office, _ = office_and_laptop()
    for job, holding in (
        ("LAA-0001", Holding(goes_on_as="A-0001", is_issued=True)),
        ("A-0001", Holding(goes_on_from="LAA-0001", goes_on_as="A-0002", is_issued=True)),
        ("A-0002", Holding(goes_on_from="A-0001", is_issued=True)),
    ):
        office.store.put_holding(job, holding)

    tell_copies(office.store, "A-0001", "d1")
    tell_copies(office.store, "A-0002", "d1")

    told = [(each.job, each.other) for each in office.store.matters() if each.kind is MatterKind.TWO_PAPERS]
    assert told == [("LAA-0001", "A-0001"), ("A-0001", "A-0002"), ("LAA-0001", "A-0002")]


def test_standings_that_lead_in_a_circle_come_to_an_end() -> None:
    office, _ = office_and_laptop()
    for job, other in (("A-0001", "A-0002"), ("A-0002", "A-0001")):
        office.store.put_holding(job, Holding(goes_on_as=other, goes_on_from=other, is_issued=True))

    tell_copies(office.store, "A-0001", "d1")

    assert [each.kind for each in office.store.matters()] == [MatterKind.COPIED, *[MatterKind.TWO_PAPERS] * 2]


def test_a_laptop_that_holds_other_work_under_the_same_last_act_takes_it_as_the_office_has_it() -> None:
    office, laptop = office_and_laptop()
    number = office.begin("a visit")
    laptop.take(office.bundle_to("d2"), crash=False, name="d3")
    laptop.jobs.done[number] = ("d2:9", *laptop.jobs.done[number])
    office.store.doubtful[number] = None

    laptop.take(office.bundle_to("d2"), crash=False, name="d3")

    assert laptop.jobs.done[number] == office.jobs.done[number]


def test_what_was_done_here_on_top_of_what_the_office_has_stays() -> None:
    office, laptop = office_and_laptop()
    laptop.begin("a visit")
    office.take(laptop.bundle_to("d1"), crash=False, name="d3")
    (number,) = laptop.jobs.done
    office.store.doubtful[number] = None
    laptop.do(Act.EDIT, number)
    bundle = bundle_for(office.store, laptop.store.ends(), office.jobs)
    assert isinstance(bundle, Bundle)
    assert number in bundle.holdings

    laptop.take(bundle._replace(operations=tuple(bundle.operations)), crash=False, name="d3")

    assert len(laptop.jobs.done[number]) == 2


def test_twins_are_told_though_the_laptop_had_heard_of_the_job_of_the_office_before_it_sent_anything() -> None:
    office, laptop = office_and_laptop()
    laptop.begin("a visit")
    office.take(laptop.bundle_to("d1"), crash=False, name="d3")
    begun = office.begin("a visit")
    laptop.take(office.bundle_to("d2"), crash=False, name="d3")

    office.take(laptop.bundle_to("d1"), crash=False, name="d3")

    assert [(each.kind, {each.job, each.other}) for each in office.store.matters()] == [
        (MatterKind.TWINS, {begun, *laptop.jobs.done} - {""})
    ]
