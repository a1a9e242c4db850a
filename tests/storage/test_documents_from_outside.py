"""What a document says of itself opens no back door: it is held to the rules of the keys, and leaves nothing when it is held."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.gate.assessment import Refusal
from domain.gate.issued_paper import IssuedPaper
from domain.job.job import Job
from domain.log.job_log import Query
from domain.register.entries import Person
from tests.builders import AT, INSPECTOR, complete_certificate, signed
from tests.examples import examples
from tests.storage.back_doors import DOORS, NOBODY, question_answered_by
from tests.storage.issuing import LATER, WHO, bind
from tests.storage.memory_log import MemoryJobLog


def issue_of(log: MemoryJobLog, job: Job):
    return log.issue_document(job, by=INSPECTOR, at=LATER, bind=bind)


@examples(0.2)
@given(doors=st.lists(st.sampled_from(DOORS), min_size=1, max_size=3, unique=True), nobody=NOBODY)
def test_no_document_is_issued_with_what_no_key_would_let_by(doors, nobody) -> None:
    job = complete_certificate(sign=False)
    for door in doors:
        job = door(job, nobody)
    log = MemoryJobLog()
    assert isinstance(issue_of(log, signed(job)), Refusal)
    assert log.find(Query()) == ()


def test_a_document_that_is_held_takes_no_number(log) -> None:
    assert isinstance(issue_of(log, complete_certificate(sign=False)), Refusal)
    assert issue_of(log, complete_certificate()).number == "A-0001"


def test_a_question_answered_by_somebody_is_answered(log) -> None:
    assert isinstance(
        issue_of(log, signed(question_answered_by(complete_certificate(sign=False), INSPECTOR))), IssuedPaper
    )


def test_a_document_signed_by_a_trainee_is_held_though_the_trainee_has_left(log) -> None:
    kept = log.register(Person(name="Ned Farthing"), who=WHO, at=AT)
    log.register(Person(name="Ned Farthing"), entry_id=kept.id, who=WHO, at=AT, retired=True)
    refusal = issue_of(log, signed(complete_certificate(sign=False), name="Ned Farthing"))
    assert isinstance(refusal, Refusal)
    assert {reason.kind for reason in refusal.reasons} == {"may not sign"}
    assert log.find(Query()) == ()


def test_a_sound_document_is_issued_in_one_go_and_a_paper_that_cannot_be_made_leaves_no_draft(log) -> None:
    def broken(pack) -> Any:
        raise OSError(28, f"no room for {pack.job.number}")

    with pytest.raises(OSError, match="no room"):
        log.issue_document(complete_certificate(), by=INSPECTOR, at=LATER, bind=broken)
    assert log.find(Query()) == ()
    issued = log.issue_document(complete_certificate(), by=INSPECTOR, at=LATER, bind=bind, op="once")
    assert issued == log.issue_document(complete_certificate(), by=INSPECTOR, at=LATER, bind=bind, op="once")
    assert [line.number for line in log.find(Query())] == [issued.number]
