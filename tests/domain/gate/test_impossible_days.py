"""Whatever days are typed, no paper leaves with one that cannot be; and one whose days are in order does leave."""

from datetime import UTC, date, datetime, time, timedelta
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from domain.gate.assessment import Pack, issue
from domain.job.job import Job
from tests.builders import INSPECTOR, ON, complete_certificate, complete_minor_works, complete_report, entered, signed
from tests.examples import examples

DAYS = st.integers(-4, 4).map(lambda away: ON + timedelta(days=away))
NOON = time(12, tzinfo=UTC)
CERTIFICATE, REPORT, MINOR_WORKS = (
    complete_certificate(sign=False),
    complete_report(sign=False),
    complete_minor_works(sign=False),
)
IN_ORDER = dict.fromkeys(("designed", "tested", "done", "signed", "issued", "calibrated"), ON) | {
    "next": ON + timedelta(days=1)
}
Days = dict[str, date]


def some_days(*names: str) -> st.SearchStrategy[Days]:
    """Days in order, of which up to three are others."""
    order = IN_ORDER | dict.fromkeys(names, ON)
    changed = st.dictionaries(st.sampled_from(sorted(order)), DAYS, max_size=3)
    return changed.map(lambda others: order | others)


def leaves(job: Job, days: Days) -> bool:
    job = signed(job, at=datetime.combine(days["signed"], NOON))
    at = datetime.combine(days["issued"], NOON) + timedelta(minutes=1)
    return isinstance(issue(job, by=INSPECTOR, at=at, people=()), Pack)


def typed(day: date) -> str:
    return day.strftime("%d/%m/%Y")


def are_in_order(*days: date) -> bool:
    """Said a second time, apart from the program."""
    return all(first <= then for first, then in pairwise(days))


@examples(1)
@given(some_days("designed", "begun"))
def test_no_certificate_leaves_with_a_day_that_cannot_be(days: Days) -> None:
    job = entered(
        CERTIFICATE,
        {name: typed(days[told]) for name, told in
         {"designed_on": "designed", "started_on": "begun", "completed_on": "done", "next_inspection": "next"}.items()},
        section="work",
    )  # fmt: skip
    job = entered(job, {"tested_on": typed(days["tested"])}, board="b1")
    job = entered(job, {"multifunction_due": typed(days["calibrated"])}, section="instruments")
    order = are_in_order(*(days[each] for each in ("designed", "begun", "tested", "done", "signed", "issued")))
    can_be = order and days["tested"] <= days["calibrated"] and days["done"] < days["next"]
    assert leaves(job, days) is can_be


@examples(1)
@given(some_days("first", "earlier"))
def test_no_report_leaves_with_a_day_that_cannot_be(days: Days) -> None:
    told = {"inspected_from": "first", "inspected_on": "done", "next_inspection": "next"}
    job = entered(REPORT, {name: typed(days[each]) for name, each in told.items()}, section="report")
    job = entered(job, {"last_inspection": typed(days["earlier"])}, section="premises")
    job = entered(job, {"tested_on": typed(days["tested"])}, board="b1")
    job = entered(job, {"multifunction_due": typed(days["calibrated"])}, section="instruments")
    order = are_in_order(days["first"], days["tested"], days["done"], days["signed"], days["issued"])
    can_be = order and days["earlier"] <= days["done"] < days["next"] and days["tested"] <= days["calibrated"]
    assert leaves(job, days) is can_be


@examples(0.5)
@given(some_days())
def test_no_minor_works_certificate_leaves_with_a_day_that_cannot_be(days: Days) -> None:
    job = entered(MINOR_WORKS, {"completed_on": typed(days["done"])}, section="work")
    job = entered(job, {"multifunction_due": typed(days["calibrated"])}, section="instruments")
    can_be = are_in_order(days["done"], days["signed"], days["issued"]) and days["done"] <= days["calibrated"]
    assert leaves(job, days) is can_be
