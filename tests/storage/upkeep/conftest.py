"""A log with a bit of everything, made once and copied for each test that damages it."""

import shutil
from pathlib import Path

import pytest

from domain.forms.form_set import FormSet
from domain.inspection.observation import Code
from domain.job.signature import Role
from domain.register.entries import Person
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, INSPECTOR, complete_minor_works, complete_report, enter, fresh
from tests.storage.issuing import WHO, issued_in


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


@pytest.fixture
def home(made: Path, tmp_path: Path) -> Path:
    return shutil.copytree(made, tmp_path / "log")
