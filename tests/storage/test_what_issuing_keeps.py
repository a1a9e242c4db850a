"""What is kept with a paper, and what is said where there is none, by the use cases over a store that forgets."""

import hashlib
from datetime import timedelta

import pytest

from domain.editing.commands import LayAside
from domain.gate.assessment import Refusal
from domain.gate.issued_paper import IssuedPaper
from domain.gate.reason import ReasonKind
from domain.job.job import canonical, record_hash
from domain.log.chain import NO_RECORD, leaf, link
from domain.log.job_log import BoundPaper, JobLogError
from domain.place import Place
from domain.register.entries import RegisterKind
from tests.builders import AT, INSPECTOR, complete_minor_works, enter
from tests.storage.issuing import LATER, WHO, bind, issued_in, sign
from tests.storage.memory_log import MemoryJobLog, MemoryStore


@pytest.fixture
def log() -> MemoryJobLog:
    return MemoryJobLog()


def store_of(log: MemoryJobLog) -> MemoryStore:
    """What a log over a store that forgets keeps."""
    store = log._store
    assert isinstance(store, MemoryStore)
    return store


def sole_reason(refusal: object) -> tuple[ReasonKind, str, str]:
    """Kind, id and sentence of the one thing that holds a paper, which stands at no box."""
    assert isinstance(refusal, Refusal), refusal
    (reason,) = refusal.reasons
    assert reason.place == Place()
    return reason.kind, reason.id, reason.says


def test_a_record_holds_the_job_as_issued_its_hash_its_paper_and_the_chain_over_those_before(log) -> None:
    chain = NO_RECORD
    for paper in (issued_in(log), issued_in(log)):
        record = store_of(log).papers.record(paper.number)
        pdf = bind(paper.pack).pdf
        body = canonical(log.load(paper.number))
        chain = link(chain, leaf(body), hashlib.sha256(pdf).digest())
        assert (record.body, record.sha, record.chain) == (body, leaf(body), chain)
        assert (record.pdf_sha.hex(), record.pages, record.replaces) == (paper.sha256, 3, "")
        assert (record.by, record.at) == (INSPECTOR, LATER)
        assert paper.record_sha256 == record_hash(log.load(paper.number)) == hashlib.sha256(body).hexdigest()
        assert log.issued(paper.number) == paper


def test_the_trails_and_the_registers_say_who_issued_it_and_when(log) -> None:
    old = issued_in(log)
    number = log.replace(old.number, because="a reading was misread", who=WHO, at=LATER).number
    sign(log, number)
    on = LATER + timedelta(days=1)
    assert isinstance(log.issue(number, by=INSPECTOR, at=on, bind=bind, op="laptop 4: 1"), IssuedPaper)
    last = log.trail(number)[-1]
    assert (last.what, last.who, last.at) == ("Issued", INSPECTOR, on)
    last = log.trail(old.number)[-1]
    assert (last.what, last.who, last.at) == (f"Replaced by {number}", INSPECTOR, on)
    assert store_of(log).papers.record(number).replaces == old.number
    kept = store_of(log).registers.entries(RegisterKind.CLIENT, "", retired=False, limit=9)
    assert {(each.who, each.at) for each in kept} == {(INSPECTOR, LATER)}


def test_an_issue_that_is_asked_again_later_says_what_became_of_the_paper_since(log) -> None:
    draft = log.create(complete_minor_works(), who=WHO, at=AT).number
    first = log.issue(draft, by=INSPECTOR, at=LATER, bind=bind, op="laptop 4: 1")
    number = log.replace(draft, because="a reading was misread", who=WHO, at=LATER).number
    sign(log, number)
    log.issue(number, by=INSPECTOR, at=LATER, bind=bind)
    again = log.issue(draft, by=INSPECTOR, at=LATER, bind=bind, op="laptop 4: 1")
    assert again == first.model_copy(update={"replaced_by": number})


def test_what_is_laid_aside_is_not_issued(log) -> None:
    number = log.create(complete_minor_works(), who=WHO, at=AT).number
    log.edit(number, LayAside(), who=WHO, at=AT)
    said = sole_reason(log.issue(number, by=INSPECTOR, at=LATER, bind=bind))
    assert said == (ReasonKind.CHANGED, "changed", "It is laid aside; take it up again, then issue it")


def test_a_document_that_says_what_it_replaces_is_sent_to_the_log_that_holds_it(log) -> None:
    job = complete_minor_works().model_copy(update={"replaces": " A-0007 "})
    kind, reason, says = sole_reason(log.issue_document(job, by=INSPECTOR, at=LATER, bind=bind))
    assert (kind, reason) == (ReasonKind.REPLACES, "replaces")
    assert says.startswith("It says it replaces A-0007; a correction is begun in the log that holds what it replaces")


@pytest.mark.parametrize(
    ("hours", "is_held"),
    [(0, False), (-1, False), (24, False), (-24, True)],
    ids=["at the same moment", "earlier on the day", "a day later", "a day earlier"],
)
def test_papers_of_a_day_may_be_issued_in_any_order_and_those_of_an_earlier_day_may_not(log, hours, is_held) -> None:
    number = log.create(complete_minor_works(), who=WHO, at=AT).number
    log.issue(number, by=INSPECTOR, at=LATER + timedelta(days=2), bind=bind)
    at = LATER + timedelta(days=2, hours=hours)
    number = log.create(complete_minor_works(), who=WHO, at=AT).number
    answer = log.issue(number, by=INSPECTOR, at=at, bind=bind)
    assert isinstance(answer, Refusal) is is_held
    if is_held:
        kind, reason, says = sole_reason(answer)
        assert (kind, reason) == (ReasonKind.EARLIER, "earlier")
        assert says.startswith(
            "A-0001, the last paper issued, is dated 4 March 2026, and this one would be dated 3 March 2026"
        )


def test_the_last_to_change_a_job_is_named_to_whoever_looked_before(log) -> None:
    number = log.create(complete_minor_works(), who=WHO, at=AT).number
    for who in ("robin", "ada"):
        log.edit(number, enter("client", "name", f"Typed by {who}"), who=who, at=AT)
    sign(log, number)
    log.edit(number, enter("client", "name", "Typed last"), who="ada", at=LATER)
    said = sole_reason(log.issue(number, by=INSPECTOR, at=LATER, bind=bind, seen="what stood there before"))
    assert said[:2] == (ReasonKind.CHANGED, "changed")
    assert said[2].startswith("ada changed the job since you looked")


def test_who_comes_to_issue_what_has_been_issued_since_is_told_that_and_not_that_it_changed(log) -> None:
    number = issued_in(log).number
    refusal = log.issue(number, by=INSPECTOR, at=LATER, bind=bind, seen="what stood there before")
    assert ReasonKind.ISSUED in {reason.kind for reason in refusal.reasons}


def test_a_number_that_is_given_away_each_time_is_given_first_at_the_third(log) -> None:
    bound: list[str] = []

    def somebody_begins_meanwhile(pack) -> BoundPaper:
        bound.append(pack.job.number)
        log.create(complete_minor_works(), who=WHO, at=AT)
        return bind(pack)

    issued = log.issue_document(complete_minor_works(), by=INSPECTOR, at=LATER, bind=somebody_begins_meanwhile)
    assert bound == ["A-0001", "A-0002", "A-0003"]
    assert issued.number == "A-0003"
    assert [each.what for each in log.trail("A-0003")][-1] == "Issued"


def test_a_paper_is_handed_out_as_it_was_issued_or_not_at_all(log) -> None:
    draft = log.create(complete_minor_works(), who=WHO, at=AT).number
    with pytest.raises(JobLogError, match=f"{draft} has not been issued; there is no paper of it"):
        log.paper(draft)
    assert log.issued(draft) is None
    paper = issued_in(log)
    assert log.paper(paper.number) == bind(paper.pack).pdf
    record, pdf = store_of(log).papers.kept[paper.number]
    store_of(log).papers.kept[paper.number] = record, pdf + b" "
    with pytest.raises(JobLogError, match=f"The paper of {paper.number} is not as it was issued"):
        log.paper(paper.number)
