"""A job that is not in the log is issued at once, or nothing of it stays behind."""

from datetime import timedelta

import pytest

from domain.gate.assessment import Pack, Refusal
from domain.gate.issued_paper import IssuedPaper
from domain.gate.reason import ReasonKind
from domain.log.job_log import BoundPaper, JobLog, JobLogError, Query, State
from tests.builders import AT, INSPECTOR, complete_minor_works
from tests.storage.issuing import WHO, bind


def test_it_comes_in_and_is_issued_under_the_number_that_comes_next(log: JobLog) -> None:
    log.create(complete_minor_works(), who=WHO, at=AT)
    issued = log.issue_document(complete_minor_works(), by=INSPECTOR, at=AT, bind=bind)
    assert isinstance(issued, IssuedPaper)
    assert (issued.number, issued.pack.job.number) == ("A-0002", "A-0002")
    assert log.line("A-0002").state is State.ISSUED
    assert log.paper("A-0002").endswith(b"A-0002")


def test_nothing_stays_behind_where_the_gate_refuses_it_or_the_paper_cannot_be_made(log: JobLog) -> None:
    def fails(pack: Pack) -> BoundPaper:
        raise JobLogError("The paper cannot be made")

    assert isinstance(log.issue_document(complete_minor_works(sign=False), by=INSPECTOR, at=AT, bind=bind), Refusal)
    with pytest.raises(JobLogError, match="cannot be made"):
        log.issue_document(complete_minor_works(), by=INSPECTOR, at=AT, bind=fails)
    assert log.find(Query()) == ()


def test_a_paper_that_cannot_be_made_skips_no_number(log: JobLog) -> None:
    def fails(pack: Pack) -> BoundPaper:
        raise JobLogError("The paper cannot be made")

    for _ in range(2):
        with pytest.raises(JobLogError, match="cannot be made"):
            log.issue_document(complete_minor_works(), by=INSPECTOR, at=AT, bind=fails)
    assert log.create(complete_minor_works(), who=WHO, at=AT).number == "A-0001"


def test_a_paper_dated_before_the_last_one_is_asked_about(log: JobLog) -> None:
    log.issue_document(complete_minor_works(), by=INSPECTOR, at=AT + timedelta(days=400), bind=bind)
    number = log.create(complete_minor_works(), who=WHO, at=AT).number
    for refusal in (
        log.issue(number, by=INSPECTOR, at=AT, bind=bind),
        log.issue_document(complete_minor_works(), by=INSPECTOR, at=AT, bind=bind),
    ):
        assert isinstance(refusal, Refusal)
        assert [reason.kind for reason in refusal.reasons] == [ReasonKind.EARLIER]
        assert "A-0001, the last paper issued, is dated" in refusal.reasons[0].says
    assert log.line(number).state is State.READY
    assert isinstance(log.issue(number, by=INSPECTOR, at=AT, bind=bind, earlier=True), IssuedPaper)
    # Said once: the paper that goes before the next is the one just issued.
    following = log.issue_document(complete_minor_works(), by=INSPECTOR, at=AT, bind=bind)
    assert isinstance(following, IssuedPaper)
    assert following.number == "A-0003"


def test_a_number_given_away_while_the_paper_is_made_is_not_given_twice(log: JobLog) -> None:
    begun: list[str] = []

    def somebody_begins_meanwhile(pack: Pack) -> BoundPaper:
        begun.append(log.create(complete_minor_works(), who=WHO, at=AT).number)
        return bind(pack)

    issued = log.issue_document(complete_minor_works(), by=INSPECTOR, at=AT, bind=somebody_begins_meanwhile)
    assert isinstance(issued, IssuedPaper)
    assert issued.number not in begun
    assert log.paper(issued.number).endswith(issued.number.encode())
