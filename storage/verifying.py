"""Whether a file is what was issued: with the log where there is one, and by the file alone where there is none."""

from domain.gate.assessment import Pack
from domain.gate.issued_paper import IssuedPaper
from domain.gate.proof import Exhibit, Proof, Seal, judge
from domain.gate.report_outcome import outcome_of
from domain.job.job import Job
from domain.log.job_log import JobLog, JobLogError
from storage.paper.examining import differences, examine
from storage.paper.paper_error import PaperError
from storage.pdf import bind
from storage.set_by import set_by


def proof_of(pdf: bytes, log: JobLog | None) -> Proof:
    """The answer about a file. Only its bytes count, never its name. NotAPdfError for what is no PDF."""
    exhibit = examine(pdf)
    issued = _issued(log, exhibit.number) if log else None
    if exhibit.unreadable or (issued and issued.sha256 == exhibit.sha256):
        return judge(exhibit, issued, has_log=bool(log), remade=None, seen=())
    reference = _reference(exhibit, issued, log)
    seen = ()
    if reference and exhibit.seal is not Seal.HOLDS and exhibit.is_ours and not exhibit.is_draft:
        than = f"{issued.number} as issued" if issued else "the paper that its record makes"
        seen = differences(pdf, reference, than)
    return judge(exhibit, issued, has_log=bool(log), remade=reference == pdf, seen=seen, set_by=set_by())


def _issued(log: JobLog, number: str) -> IssuedPaper | None:
    """The paper of this number, naming the newest of those that replaced it one after another."""
    issued = newest = log.issued(number) if number else None
    while newest and newest.replaced_by:
        newest = log.issued(newest.replaced_by)
    return (
        issued.model_copy(update={"replaced_by": newest.number})
        if issued and newest is not issued and newest
        else issued
    )


def _reference(exhibit: Exhibit, issued: IssuedPaper | None, log: JobLog | None) -> bytes | None:
    """What the file should be: the kept copy, or else what its own record makes."""
    if log and issued and exhibit.seal is not Seal.HOLDS:
        try:
            return log.paper(issued.number)
        except JobLogError:
            return None
    return _remade(exhibit.record) if exhibit.record else None


def _remade(record: Job) -> bytes | None:
    if record.issued is None:
        return None
    try:
        return bind(Pack(job=record, outcome=outcome_of(record))).pdf
    except PaperError:
        return None
