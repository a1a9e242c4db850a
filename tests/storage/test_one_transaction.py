"""What follows from one act is kept with it or not at all, whatever keeps the log."""

import threading

import pytest

from domain.editing.commands import RaiseSnag
from domain.forms.form_set import FormSet
from domain.gate.issued_paper import IssuedPaper
from domain.inspection.observation import Code
from domain.log.job_log import JobLine, JobLogError, Query
from domain.log.put_right.notes import How, RemedyNote
from domain.log.store import Store, StoredJob, TrailEntry
from domain.log.stored_log import StoredLog
from domain.register.entries import RegisterKind
from tests.builders import AT, INSPECTOR, ON, complete_certificate, complete_minor_works, complete_report, fresh
from tests.storage.issuing import LATER, WHO, bind, issued_in, sign


class FullBeforeTheEnd:
    """A store whose disk is full when the last thing of an issue is to be kept."""

    def __init__(self, store: Store) -> None:
        self._store = store

    def __getattr__(self, name: str):
        return getattr(self._store, name)

    def put(self, stored: StoredJob, line: JobLine, entry: TrailEntry) -> None:
        if entry.what.startswith("Put right"):
            raise JobLogError("The disk is full.")
        self._store.put(stored, line, entry)


@pytest.fixture
def waiting(log) -> tuple[str, str]:
    """A report that only one certificate is missing to be put right, and that certificate, ready to be issued."""
    report = issued_in(log, complete_report(Code.C2)).number
    remedy = log.create(complete_minor_works(), who=WHO, at=AT).number
    (item,) = log.remedial_status(log.load(report)).items
    note = RemedyNote(observation=item.observation.id, how=How.CERTIFICATE, number=remedy)
    assert log.note_remedy(report, note, who=WHO, at=AT) == ""
    return report, remedy


def test_the_paper_that_puts_a_report_right_settles_it_as_it_is_issued(log, waiting):
    report, remedy = waiting
    assert not log.line(report).put_right
    assert log.reports_put_right(remedy) == ()
    assert isinstance(log.issue(remedy, by=INSPECTOR, at=LATER, bind=bind), IssuedPaper)
    assert log.line(report).put_right
    assert log.reports_put_right(remedy) == (report,)
    assert log.trail(report)[-1].at == LATER
    assert log.find(Query(to_put_right=True)) == ()


def test_a_paper_whose_report_cannot_be_settled_is_not_issued_and_nothing_follows_from_it(store, log, waiting):
    report, _ = waiting
    correction = log.replace(issued_in(log, complete_certificate()).number, because="misread", who=WHO, at=AT).number
    sign(log, correction)
    (item,) = log.remedial_status(log.load(report)).items
    log.note_remedy(
        report, RemedyNote(observation=item.observation.id, how=How.CERTIFICATE, number=correction), who=WHO, at=AT
    )
    kept = [(line, log.trail(line.number)) for line in log.find(Query())], log.chain_head()
    known = [log.registered(kind) for kind in RegisterKind]
    with pytest.raises(JobLogError, match="disk is full"):
        StoredLog(FullBeforeTheEnd(store)).issue(correction, by=INSPECTOR, at=LATER, bind=bind)
    assert ([(line, log.trail(line.number)) for line in log.find(Query())], log.chain_head()) == kept
    assert [log.registered(kind) for kind in RegisterKind] == known
    assert log.issued(correction) is None
    assert isinstance(log.issue(correction, by=INSPECTOR, at=LATER, bind=bind), IssuedPaper)
    assert log.paper(correction) == bind(log.issued(correction).pack).pdf
    assert log.line(report).put_right


def test_jobs_are_read_to_the_end_before_anybody_has_to_wait(log):
    number = log.create(fresh(FormSet.EIC), who=WHO, at=AT).number

    def read_slowly():
        yield fresh(FormSet.EICR)
        other = threading.Thread(target=lambda: log.edit(number, _snag(1), who="robin", at=AT))
        other.start()
        other.join()
        yield fresh(FormSet.EICR)

    assert [job.number for job in log.create_all(read_slowly(), who=WHO, at=AT)] == ["A-0002", "A-0003"]
    assert len(log.load(number).snags) == 1


def test_two_who_write_at_once_on_one_draft_both_have_every_edit_kept(log):
    number = log.create(fresh(FormSet.EIC), who=WHO, at=AT).number

    def write(who: str) -> None:
        for turn in range(25):
            log.edit(number, _snag(turn), who=who, at=AT)

    writers = [threading.Thread(target=write, args=(who,)) for who in ("robin", "hetty")]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    assert len(log.load(number).snags) == 50
    assert [line.version for line in log.trail(number)] == list(range(1, 52))


def test_a_paper_that_was_never_issued_is_not_there_to_be_read(log):
    number = log.create(complete_minor_works(), who=WHO, at=AT).number
    for each in (number, "A-0009"):
        with pytest.raises(JobLogError, match="has not been issued"):
            log.paper(each)


def _snag(turn: int) -> RaiseSnag:
    return RaiseSnag(what=f"Lid {turn} missing", by=WHO, on=ON)
