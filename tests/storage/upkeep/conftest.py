"""A log with a bit of everything, made once and copied for each test that damages it."""

import shutil
from pathlib import Path

import pytest

from domain.editing.commands import RaiseSnag
from domain.forms.form_set import FormSet
from domain.gate.issued_paper import IssuedPaper
from domain.inspection.observation import Code
from domain.job.job import Job
from domain.job.signature import Role
from domain.register.entries import Person
from storage.pdf import bind
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, INSPECTOR, complete_minor_works, complete_report, enter, fresh
from tests.storage.issuing import LATER, WHO, issued_in, sign


@pytest.fixture(scope="session")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Three issued papers, A-0001 to A-0003, and two drafts after them."""
    home = tmp_path_factory.mktemp("made") / "log"
    log = SqliteJobLog.open(home)
    log.register(Person(name=INSPECTOR, signs=tuple(Role)), who=WHO, at=AT)
    log.add_note("a topic", "something noted", who=WHO, at=AT)
    for job in (complete_minor_works(), complete_report(Code.C2), complete_minor_works()):
        issued_in(log, job)
    log.create(complete_minor_works(), who=WHO, at=AT)
    log.create(fresh(FormSet.EIC), who=WHO, at=AT)
    for count in range(40):
        log.edit("A-0005", enter("client", "name", f"Bertram Quill the {count}th"), who=WHO, at=AT)
    log.close()
    return home


@pytest.fixture(scope="session")
def real_log(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A log with papers as the program really makes them; see `begin_real_log`."""
    return begin_real_log(tmp_path_factory.mktemp("real") / "log")


def begin_real_log(home: Path) -> Path:
    """A-0001 to A-0004 issued with real papers, the fourth in the place of the third; drafts A-0005, ready, to A-0007, snagged."""
    log = SqliteJobLog.open(home)
    log.register(Person(name=INSPECTOR, signs=tuple(Role)), who=WHO, at=AT)
    other = log.register(Person(name="Sorrel Wick"), who=WHO, at=AT)
    log.register(Person(name="Sorrel Wick", signs=tuple(Role)[:1]), entry_id=other.id, who=WHO, at=AT)
    assert log.set_phrase("Sorrel Wick", "larch over granite", who=WHO, at=AT) == ""
    for job in (complete_minor_works(), complete_report(Code.C2), complete_minor_works()):
        issued_for_real(log, log.create(job, who=WHO, at=AT).number)
    correction = log.replace("A-0003", because="A reading was misread", who=WHO, at=AT)
    assert isinstance(correction, Job)
    sign(log, correction.number)
    issued_for_real(log, correction.number)
    log.create(complete_minor_works(), who=WHO, at=AT)
    log.create(fresh(FormSet.EIC), who=WHO, at=AT)
    for count in range(3):
        log.edit("A-0006", enter("client", "name", f"Bertram Quill the {count}th"), who=WHO, at=AT)
    log.undo("A-0006", who=WHO, at=AT)
    log.create(complete_minor_works(), who=WHO, at=AT)
    log.edit("A-0007", RaiseSnag(what="Lid off", by=INSPECTOR, on=AT.date()), who=WHO, at=AT)
    log.close()
    return home


def issued_for_real(log: SqliteJobLog, number: str) -> None:
    """Issue it with its paper."""
    issued = log.issue(number, by=INSPECTOR, at=LATER, bind=bind)
    assert isinstance(issued, IssuedPaper), issued


@pytest.fixture
def home(made: Path, tmp_path: Path) -> Path:
    return shutil.copytree(made, tmp_path / "log")
