"""Papers issued in a log, for tests of any log."""

from datetime import timedelta

from domain.commands import Sign
from domain.issued import Issued
from domain.job_log import Bound, JobLog
from domain.signature import roles_for
from tests.builders import AT, INSPECTOR, complete_minor_works

WHO = "tamsin"
LATER = AT + timedelta(hours=1)


def bind(pack) -> Bound:
    return Bound(pdf=b"%PDF-1.7 " + pack.job.number.encode(), pages=3)


def issued_in(log: JobLog, job=None) -> Issued:
    number = log.create(job or complete_minor_works(), who=WHO, at=AT).number
    issued = log.issue(number, by=INSPECTOR, at=LATER, bind=bind)
    assert isinstance(issued, Issued)
    return issued


def sign(log: JobLog, number: str) -> None:
    for role in roles_for(log.load(number).form_set):
        log.edit(number, Sign(role=role, name=INSPECTOR, at=LATER), who=WHO, at=LATER)
