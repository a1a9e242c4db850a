"""Trouble with disks and files is told in plain words, and costs nothing that was saved."""

import os
import re
import resource

import pytest

from domain.forms.form_set import FormSet
from domain.gate.assessment import Refusal
from domain.log.job_log import BoundPaper, JobLogError, Query, State
from storage.driver import sqlite3
from storage.log_file import FILE_NAME
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, INSPECTOR, complete_minor_works, enter, fresh
from tests.storage.children import ended, forked
from tests.storage.issuing import bind

WHO = "tamsin"
NOT_FOR_PEOPLE = re.compile(r"sqlite|database|errno|traceback|\bsql\b|pragma|constraint|exception", re.IGNORECASE)


def told_when(act) -> str:
    """The sentence an act ends in."""
    with pytest.raises(JobLogError) as trouble:
        act()
    says = str(trouble.value)
    assert not NOT_FOR_PEOPLE.search(says), says
    assert says.endswith(".")
    return says


@pytest.fixture
def kept(home) -> str:
    """The number of a job in a log that is closed again."""
    log = SqliteJobLog.open(home)
    number = log.create(complete_minor_works(), who=WHO, at=AT).number
    log.close()
    return number


def test_a_newer_log_is_left_alone(home, kept):
    connection = sqlite3.connect(home / FILE_NAME)
    connection.execute("PRAGMA user_version = 999")
    connection.close()
    assert "newer version" in told_when(lambda: SqliteJobLog.open(home))


def test_another_programs_file_is_left_alone(home):
    home.mkdir()
    connection = sqlite3.connect(home / FILE_NAME)
    connection.execute("CREATE TABLE somebody_elses (it)")
    connection.close()
    before = (home / FILE_NAME).read_bytes()
    assert "is not a job log" in told_when(lambda: SqliteJobLog.open(home))
    assert (home / FILE_NAME).read_bytes() == before


def test_a_file_that_is_no_log_at_all_is_called_damaged(home):
    home.mkdir()
    (home / FILE_NAME).write_bytes(b"Dear diary, " * 500)
    assert "is damaged" in told_when(lambda: SqliteJobLog.open(home))


def test_a_cut_off_file_is_called_damaged_and_left_as_it_is(home, kept):
    whole = (home / FILE_NAME).read_bytes()
    (home / FILE_NAME).write_bytes(whole[: len(whole) // 2])

    def use() -> None:
        log = SqliteJobLog.open(home)
        try:
            log.load(kept)
            log.find(Query())
            log.find(Query(words="zoe"))
        finally:
            log.close()

    assert "is damaged" in told_when(use)


def test_a_draft_altered_on_disk_is_not_taken_for_what_was_typed(home, kept):
    connection = sqlite3.connect(home / FILE_NAME)
    connection.execute("UPDATE draft SET body = replace(body, '0.49', '0.31')")
    connection.commit()
    connection.close()
    log = SqliteJobLog.open(home)
    assert f"The record of {kept} is damaged" in told_when(lambda: log.load(kept))
    assert "is damaged" in told_when(lambda: log.edit(kept, enter("client", "name", "X"), who=WHO, at=AT))
    log.close()


def test_a_folder_that_is_a_file_cannot_hold_a_log(tmp_path):
    (tmp_path / "taken").write_text("")
    assert "cannot be opened" in told_when(lambda: SqliteJobLog.open(tmp_path / "taken"))
    assert "cannot be opened" in told_when(lambda: SqliteJobLog.open(tmp_path / "taken" / "log"))


def test_a_log_that_may_not_be_read_says_where_to_look(home, kept):
    def open_as_somebody_else() -> None:
        if os.geteuid() == 0:
            os.setuid(65534)
        else:
            (home / FILE_NAME).chmod(0)
        assert "may read and write" in told_when(lambda: SqliteJobLog.open(home))

    assert ended(forked(open_as_somebody_else)) == 0


def fill_up_to(size: int) -> None:
    """From here on no file of this process grows beyond a size."""
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, resource.RLIM_INFINITY))


def edit_until_refused(log: SqliteJobLog, number: str) -> int:
    kept = 0

    def edit_on() -> None:
        nonlocal kept
        while True:
            log.edit(number, enter("report", "reason", f"kept {kept}"), who=WHO, at=AT)
            kept += 1

    assert "not saved" in told_when(edit_on)
    return kept


def test_a_full_disk_refuses_an_edit_keeps_the_others_and_takes_it_when_there_is_room(home):
    def work() -> None:
        log = SqliteJobLog.open(home)
        number = log.create(fresh(FormSet.EICR), who=WHO, at=AT).number
        fill_up_to(600_000)
        refused = edit_until_refused(log, number)
        assert refused > 1
        assert log.load(number).report.reason == f"kept {refused - 1}"
        assert [line.number for line in log.find(Query())] == [number]
        fill_up_to(100_000_000)
        log.edit(number, enter("report", "reason", "typed again"), who=WHO, at=AT)
        log.close()

    assert ended(forked(work)) == 0
    log = SqliteJobLog.open(home)
    assert log.load("A-0001").report.reason == "typed again"
    log.close()


def test_a_paper_that_finds_no_room_leaves_the_draft_ready(home):
    def work() -> None:
        log = SqliteJobLog.open(home)
        number = log.create(complete_minor_works(), who=WHO, at=AT).number
        fill_up_to(2_000_000)
        bulky = BoundPaper(pdf=bytes(3_000_000), pages=3)
        assert "not saved" in told_when(lambda: log.issue(number, by=INSPECTOR, at=AT, bind=lambda pack: bulky))
        assert log.line(number).state is State.READY
        assert list((home / "issued").iterdir()) == list((home / "binding").iterdir()) == []
        assert not isinstance(log.issue(number, by=INSPECTOR, at=AT, bind=bind), Refusal)
        log.close()

    assert ended(forked(work)) == 0


def test_what_a_person_types_into_a_number_may_be_bytes_that_are_no_text(home, kept):
    log = SqliteJobLog.open(home)
    assert "no text" in told_when(lambda: log.load("\udcff"))
    assert log.line(kept).state is State.READY
    log.close()
