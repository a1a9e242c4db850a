"""How jobs are found again by when they are due, by whom and by when they were done, in every job log."""

from datetime import date, timedelta

import pytest

from domain.editing.commands import Sign
from domain.forms.form_set import FormSet
from domain.gate.outcome import Outcome
from domain.inspection.observation import Code
from domain.job.signature import roles_for
from domain.log.job_log import State
from domain.log.put_right.notes import How, RemedyNote
from tests.builders import (
    AT,
    INSPECTOR,
    complete_certificate,
    complete_minor_works,
    complete_report,
    entered,
)
from tests.storage.finding import numbers
from tests.storage.issuing import bind, put_right_by_others

WHO = "tamsin"


def issue_some(log):
    """A-0001 a certificate due in 2036, A-0002 a report due in 2031 to put right, A-0003 a draft by robin alone."""
    log.create(complete_certificate(), who=WHO, at=AT)
    log.create(complete_report(Code.C2), who=WHO, at=AT + timedelta(hours=1))
    for number in ("A-0001", "A-0002"):
        log.issue(number, by=WHO, at=AT + timedelta(hours=2), bind=bind)
    draft = entered(complete_minor_works(sign=False), {"completed_on": "03/04/2025"}, section="work")
    log.create(draft, who="robin", at=AT + timedelta(hours=3))
    return log


@pytest.fixture
def issued_ones(log):
    """A log of three jobs, to be changed."""
    return issue_some(log)


@pytest.fixture(scope="module")
def read(log_of_readers):
    """The same, only read."""
    return issue_some(log_of_readers)


@pytest.mark.parametrize(
    ("typed", "filters", "found"),
    [
        ("due:02/03/2031", {"due_before": date(2031, 3, 2)}, "2"),
        ("due:01/03/2031", {"due_before": date(2031, 3, 1)}, ""),
        ("due:2036-03-02", {"due_before": date(2036, 3, 2)}, "21"),
        ("due:2036-03-02 form:EIC", {"due_before": date(2036, 3, 2), "form_set": FormSet.EIC}, "1"),
        ("remedial:open", {"to_put_right": True}, "2"),
        ("hand:tamsin", {"hand": "tamsin"}, "21"),
        ("hand:robin", {"hand": "robin"}, "3"),
        ("hand:robin kitchen", {"hand": "robin", "words": "kitchen"}, "3"),
        ("hand:nobody", {"hand": "nobody"}, ""),
        ("engineer:tamsin", {"engineer": "tamsin"}, "21"),
        ("engineer:tamsin engineer:orch", {"engineer": "Tamsin Orch"}, "21"),
        ("engineer:tams engineer:orchard", {"engineer": "tams orchard"}, ""),
        ("engineer:fairweather", {"engineer": "fairweather"}, ""),
        ('engineer:"Tamsin Orchard"', {"engineer": "Tamsin Orchard"}, "21"),
        ("engineer:Tamsin Orchard", {"engineer": "Tamsin", "words": "Orchard"}, "21"),
        ("orchard tams", {"words": "orchard tams"}, "21"),
        ("year:2026", {"year": 2026}, "21"),
        ("year:2025", {"year": 2025}, "3"),
        ("year:2025 state:issued", {"year": 2025, "state": State.ISSUED}, ""),
    ],
)
def test_jobs_are_listed_by_due_date_engineer_year_and_hand(read, typed, filters, found):
    assert numbers(read, typed) == list(found)
    assert numbers(read, **filters) == list(found)


@pytest.mark.parametrize(("typed", "days"), [("due:60d", 60), ("due:2w", 14), ("due:overdue", 0)])
def test_a_due_date_may_be_so_many_days_from_today(read, typed, days):
    due = date(2031, 3, 2)
    assert numbers(read, typed, on=due - timedelta(days=days)) == ["2"]
    assert numbers(read, typed, on=due - timedelta(days=days + 1)) == []
    assert numbers(read, typed) == []


def test_what_is_due_first_comes_first_page_by_page(read):
    far = date(2040, 1, 1)
    assert numbers(read, due_before=far, limit=1) == ["2"]
    assert numbers(read, due_before=far, limit=1, before="A-0002") == ["1"]
    assert numbers(read, due_before=far, limit=1, before="A-0001") == []


def test_a_replaced_paper_is_due_no_more(issued_ones):
    correction = issued_ones.replace("A-0001", because="a reading was misread", who=WHO, at=AT)
    for role in roles_for(correction.form_set):
        issued_ones.edit(correction.number, Sign(role=role, name=INSPECTOR, at=AT), who=WHO, at=AT)
    issued_ones.issue(correction.number, by=WHO, at=AT, bind=bind)
    assert numbers(issued_ones, due_before=date(2040, 1, 1)) == ["2", "4"]


def test_a_report_that_was_put_right_leaves_the_list_and_stays_as_issued(issued_ones):
    before = issued_ones.load("A-0002")
    put_right_by_others(issued_ones, "A-0002", who="robin")
    assert numbers(issued_ones, to_put_right=True) == []
    line = issued_ones.line("A-0002")
    assert (line.put_right, line.outcome, line.state) == (True, Outcome.UNSATISFACTORY, State.ISSUED)
    assert issued_ones.trail("A-0002")[-1].what == "Put right: QN-118 of Quenby Electrics, 2 March 2026"
    assert issued_ones.load("A-0002") == before
    for number in ("A-0001", "A-0003"):
        note = RemedyNote(observation="o1", how=How.OPEN)
        assert "nothing to put right" in issued_ones.note_remedy(number, note, who=WHO, at=AT)
