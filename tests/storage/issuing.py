"""Papers issued in a log, for tests of any log."""

from datetime import timedelta

from domain.editing.commands import Sign
from domain.gate.issued_paper import IssuedPaper
from domain.job.signature import roles_for
from domain.log.job_log import BoundPaper, JobLog
from domain.log.put_right.notes import How, RemedyNote
from tests.builders import AT, INSPECTOR, complete_minor_works

WHO = "tamsin"
LATER = AT + timedelta(hours=1)


def bind(pack) -> BoundPaper:
    return BoundPaper(pdf=b"%PDF-1.7 " + pack.job.number.encode(), pages=3)


def issued_in(log: JobLog, job=None) -> IssuedPaper:
    number = log.create(job or complete_minor_works(), who=WHO, at=AT).number
    issued = log.issue(number, by=INSPECTOR, at=LATER, bind=bind)
    assert isinstance(issued, IssuedPaper)
    return issued


def put_right_by_others(log: JobLog, number: str, *, who: str = WHO) -> None:
    """Note a paper of another firm beside every observation that made a report unsatisfactory."""
    for item in log.remedial_status(log.load(number)).items:
        note = RemedyNote(
            observation=item.observation.id, how=How.PAPER, number="QN-118", firm="Quenby Electrics", on=AT.date()
        )
        assert log.note_remedy(number, note, who=who, at=AT) == ""


def sign(log: JobLog, number: str) -> None:
    for role in roles_for(log.load(number).form_set):
        log.edit(number, Sign(role=role, name=INSPECTOR, at=LATER), who=WHO, at=LATER)
