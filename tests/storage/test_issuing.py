"""What every job log must do when a paper is issued or corrected, whatever keeps it."""

import pytest

from domain.editing.commands import Declined, RaiseSnag, Sign
from domain.forms.form_set import FormSet
from domain.gate.assessment import Refusal
from domain.gate.issued_paper import IssuedPaper
from domain.gate.outcome import Outcome
from domain.gate.reason import ReasonKind
from domain.inspection.observation import Code
from domain.job.job import IssueStamp, fingerprint
from domain.job.signature import roles_for
from domain.log.job_log import BoundPaper, Query, State
from domain.register.entries import Person
from storage.set_by import set_by
from tests.builders import (
    AT,
    INSPECTOR,
    ON,
    complete_minor_works,
    complete_report,
    enter,
    snagged,
)
from tests.storage.issuing import LATER, WHO, bind, issued_in, sign


def test_a_report_with_a_c2_shows_as_unsatisfactory_before_and_after_issue(log):
    number = log.create(complete_report(Code.C2), who=WHO, at=AT).number
    assert log.line(number).outcome is Outcome.UNSATISFACTORY
    log.issue(number, by=INSPECTOR, at=LATER, bind=bind)
    assert log.line(number).outcome is Outcome.UNSATISFACTORY


def test_an_issued_job_keeps_its_paper(store, log):
    number = log.create(complete_minor_works(), who=WHO, at=AT).number
    head = log.chain_head()
    issued = log.issue(number, by=INSPECTOR, at=LATER, bind=bind)
    assert log.issued(issued.number) == issued
    assert issued.pack.job == log.load(issued.number)
    assert issued.pack.job.issued == IssueStamp(at=LATER, by=INSPECTOR, head=head, set_by=set_by())
    assert (issued.pages, len(issued.sha256)) == (3, 64)
    record = store.papers.record(number)
    assert (record.number, record.by, record.at, record.replaces) == (number, INSPECTOR, LATER, "")
    assert store.papers.last() == (number, LATER)


def test_the_paper_carries_the_number_of_the_job(log):
    assert issued_in(log).pack.job.number == "A-0001"


def test_an_open_snag_keeps_the_paper_from_being_made(log):
    number = log.create(snagged(complete_minor_works()), who=WHO, at=AT).number
    bound = []
    refusal = log.issue(number, by=WHO, at=AT, bind=lambda pack: bound.append(pack) or bind(pack))
    assert isinstance(refusal, Refusal)
    assert ReasonKind.SNAG in {reason.kind for reason in refusal.reasons}
    assert (bound, log.issued(number), log.line(number).state) == ([], None, State.DRAFT)


def test_a_job_is_issued_once(log):
    number = issued_in(log).number
    assert isinstance(log.issue(number, by=WHO, at=LATER, bind=bind), Refusal)


def test_an_issued_job_takes_no_edit(log):
    number = issued_in(log).number
    before = log.load(number), log.trail(number)
    answer = log.edit(number, RaiseSnag(what="Late thought", by=WHO, on=ON), who=WHO, at=LATER)
    assert isinstance(answer, Declined)
    assert (log.load(number), log.trail(number)) == before


def test_a_job_changed_while_its_paper_is_made_is_not_issued(log):
    number = log.create(complete_minor_works(), who=WHO, at=AT).number

    def bind_slowly(pack) -> BoundPaper:
        log.edit(number, RaiseSnag(what="Lid missing", by="robin", on=ON), who="robin", at=LATER)
        return bind(pack)

    refusal = log.issue(number, by=WHO, at=LATER, bind=bind_slowly)
    assert isinstance(refusal, Refusal)
    assert refusal.reasons[0].kind is ReasonKind.CHANGED
    assert "robin" in refusal.reasons[0].says
    assert (log.issued(number), log.load(number).issued, log.line(number).open_snags) == (None, None, 1)


def test_a_paper_that_cannot_be_made_leaves_the_draft_ready(log):
    number = log.create(complete_minor_works(), who=WHO, at=AT).number

    def fail(pack) -> BoundPaper:
        raise RuntimeError("a sheet runs over")

    with pytest.raises(RuntimeError, match="runs over"):
        log.issue(number, by=WHO, at=LATER, bind=fail)
    assert log.line(number).state is State.READY
    assert isinstance(log.issue(number, by=WHO, at=LATER, bind=bind), IssuedPaper)


def test_a_correction_is_a_new_draft_with_the_readings_and_without_the_signatures(log):
    old = issued_in(log).pack.job
    draft = log.replace(old.number, because="a reading was misread", who=WHO, at=LATER)
    assert (draft.number, draft.replaces, draft.signatures, draft.issued) == ("A-0002", old.number, (), None)
    assert (draft.boards, draft.client) == (old.boards, old.client)
    assert log.line(old.number).state is State.ISSUED


def test_the_old_paper_is_replaced_when_the_correction_is_issued_and_not_before(log):
    old = issued_in(log)
    number = log.replace(old.number, because="a reading was misread", who=WHO, at=LATER).number
    log.edit(number, enter("client", "name", "Zoë Merryweather"), who=WHO, at=LATER)
    sign(log, number)
    assert log.line(old.number).state is State.ISSUED
    assert isinstance(log.issue(number, by=INSPECTOR, at=LATER, bind=bind), IssuedPaper)
    assert log.line(old.number).state is State.REPLACED
    assert log.issued(old.number) == old.model_copy(update={"replaced_by": number})
    assert log.trail(old.number)[-1].what == "Replaced by A-0002"


def test_only_an_issued_job_is_corrected_and_by_one_draft(log):
    draft = log.create(complete_minor_works(), who=WHO, at=AT).number
    assert isinstance(log.replace(draft, because="a reading was misread", who=WHO, at=AT), Declined)
    log.issue(draft, by=INSPECTOR, at=LATER, bind=bind)
    correction = log.replace(draft, because="a reading was misread", who=WHO, at=LATER).number
    assert correction in log.replace(draft, because="a reading was misread", who="robin", at=LATER).says
    sign(log, correction)
    log.issue(correction, by=INSPECTOR, at=LATER, bind=bind)
    assert "has been replaced" in log.replace(draft, because="a reading was misread", who=WHO, at=LATER).says
    assert log.replace(correction, because="a reading was misread", who=WHO, at=LATER).replaces == correction


def test_a_file_that_says_it_replaces_a_paper_of_this_log_does_not(log):
    number = issued_in(log).number
    stranger = complete_minor_works(sign=False).model_copy(update={"replaces": number, "replaces_because": "theirs"})
    imported = log.create(stranger, who=WHO, at=AT).number
    sign(log, imported)
    assert isinstance(log.issue(imported, by=INSPECTOR, at=LATER, bind=bind), IssuedPaper)
    assert log.line(number).state is State.ISSUED


def test_another_job_than_the_person_saw_is_neither_signed_nor_issued(log):
    number = log.create(complete_minor_works(), who=WHO, at=AT).number
    seen = fingerprint(log.load(number))
    log.edit(number, enter("client", "name", "Bertram Quill"), who="robin", at=AT)
    role = roles_for(FormSet.MEIWC)[0]
    stale = log.edit(number, Sign(role=role, name=INSPECTOR, at=AT, seen=seen), who=WHO, at=AT)
    assert "changed since you looked" in stale.says
    now = fingerprint(log.load(number))
    assert not isinstance(log.edit(number, Sign(role=role, name=INSPECTOR, at=AT, seen=now), who=WHO, at=AT), Declined)
    refusal = log.issue(number, by=WHO, at=LATER, bind=bind, seen=seen)
    assert (refusal.reasons[0].kind, "changed the job since you looked" in refusal.reasons[0].says) == (
        ReasonKind.CHANGED,
        True,
    )
    assert isinstance(log.issue(number, by=WHO, at=LATER, bind=bind, seen=now), IssuedPaper)


def test_the_head_changes_with_all_that_is_kept_for_good_and_with_nothing_else(log):
    heads = [log.chain_head()]
    assert heads == ["00" * 32]
    for act in (
        lambda: log.create(complete_minor_works(), who=WHO, at=AT),
        lambda: log.edit("A-0001", enter("client", "name", "Bertram Quill"), who=WHO, at=AT),
        lambda: log.undo("A-0001", who=WHO, at=AT),
        lambda: log.register(Person(name="Rufus Pell"), who=WHO, at=AT),
        lambda: log.add_note("a topic", "noted", who=WHO, at=AT),
    ):
        act()
        heads.append(log.chain_head())
    log.save_position("A-0001", "client", who=WHO)
    assert (log.find(Query()), log.chain_head()) == (log.find(Query()), heads[-1])
    assert len({*heads}) == 6
    assert {len(head) for head in heads} == {64}
    assert all(log.had_head(head) for head in heads)
    assert not log.had_head("ab" * 32)
