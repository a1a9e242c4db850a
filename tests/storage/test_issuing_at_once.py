"""A job that is not in the log is issued at once, or nothing of it stays behind."""

import pytest

from domain.gate.assessment import Pack, Refusal
from domain.gate.issued_paper import IssuedPaper
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


def test_a_number_given_away_while_the_paper_is_made_is_not_given_twice(log: JobLog) -> None:
    begun: list[str] = []

    def somebody_begins_meanwhile(pack: Pack) -> BoundPaper:
        begun.append(log.create(complete_minor_works(), who=WHO, at=AT).number)
        return bind(pack)

    issued = log.issue_document(complete_minor_works(), by=INSPECTOR, at=AT, bind=somebody_begins_meanwhile)
    assert isinstance(issued, IssuedPaper)
    assert issued.number not in begun
    assert log.paper(issued.number).endswith(issued.number.encode())
