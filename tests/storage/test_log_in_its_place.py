"""A log that was moved, deleted, replaced, emptied or cut short: told, and nothing that looked kept is lost unseen."""

import os
import shutil
import signal

import pytest

from domain.log.job_log import BusyError, LogGoneError
from storage.log_file import FILE_NAME
from storage.sqlite_job_log import SqliteJobLog
from storage.turn import LOCK_NAME, Turn
from storage.upkeep.sqlite_upkeep import SqliteUpkeep
from storage.witness import WITNESS
from tests.builders import AT, complete_minor_works, enter
from tests.storage.children import ended, forked
from tests.storage.issuing import WHO, issued_in
from tests.storage.test_trouble import told_when


def named(log: SqliteJobLog, name: str) -> None:
    log.edit("A-0001", enter("client", "name", name), who=WHO, at=AT)


@pytest.fixture
def open_log(home):
    log = SqliteJobLog.open(home)
    log.create(complete_minor_works(), who=WHO, at=AT)
    yield log
    log.close()


@pytest.mark.parametrize("harm", ["moved", "deleted", "replaced", "folder moved"])
def test_nothing_is_kept_in_a_log_that_no_longer_lies_where_people_find_it(home, open_log, tmp_path, harm):
    if harm == "folder moved":
        home.rename(tmp_path / "elsewhere")
    elif harm == "moved":
        (home / FILE_NAME).rename(tmp_path / "elsewhere")
    elif harm == "deleted":
        (home / FILE_NAME).unlink()
    else:
        shutil.copy(home / FILE_NAME, tmp_path / "other")
        (tmp_path / "other").replace(home / FILE_NAME)
    with pytest.raises(LogGoneError, match=r"moved, deleted or replaced while it was open\. This was not saved"):
        named(open_log, "Typed after")
    assert open_log.load("A-0001").client.name != "Typed after"


def test_a_log_put_back_where_it_was_is_kept_in_again(home, open_log, tmp_path):
    (home / FILE_NAME).rename(tmp_path / "elsewhere")
    with pytest.raises(LogGoneError):
        named(open_log, "Typed meanwhile")
    (tmp_path / "elsewhere").rename(home / FILE_NAME)
    named(open_log, "Typed after")
    assert open_log.load("A-0001").client.name == "Typed after"


def test_an_empty_file_is_no_new_log_and_neither_is_a_folder_of_papers(home, open_log):
    issued_in(open_log)
    open_log.close()
    copy = SqliteUpkeep(home).copy_of_the_day(at=AT, keep=3)
    os.truncate(home / FILE_NAME, 0)
    for name in (f"{FILE_NAME}-wal", f"{FILE_NAME}-shm"):
        (home / name).unlink(missing_ok=True)
    empty = told_when(lambda: SqliteJobLog.open(home))
    assert "is empty" in empty
    assert f"ohmfolio restore {copy.path}" in empty
    (home / FILE_NAME).unlink()
    assert "it is gone" in told_when(lambda: SqliteJobLog.open(home))
    (home / WITNESS).unlink()
    assert "it is gone" in told_when(lambda: SqliteJobLog.open(home))
    assert not (home / FILE_NAME).exists()
    SqliteUpkeep(home).restore(copy.path, at=AT)
    log = SqliteJobLog.open(home)
    assert log.load("A-0001")
    log.close()


def edited_and_killed(home) -> None:
    """A program that kept three changes, and was killed before what it wrote came into the file itself."""

    def work() -> None:
        log = SqliteJobLog.open(home)
        for count in range(3):
            named(log, f"Typed {count}")
        os.kill(os.getpid(), signal.SIGKILL)

    assert ended(forked(work)) == -signal.SIGKILL


@pytest.mark.parametrize("harm", ["deleted", "cut", "flipped"])
def test_changes_lost_with_the_write_ahead_file_are_told_by_number_and_nothing_is_kept_until_that_is_settled(
    home, open_log, harm
):
    open_log.close()
    edited_and_killed(home)
    wal = home / f"{FILE_NAME}-wal"
    whole = wal.read_bytes()
    if harm == "deleted":
        wal.unlink()
    elif harm == "cut":
        os.truncate(wal, len(whole) - 3 * 4096)
    else:
        wal.write_bytes(whole[:-2000] + bytes([whole[-2000] ^ 1]) + whole[-1999:])
    log = SqliteJobLog.open(home)
    assert "missing from the job log (A-0001)" in log.refuses()
    assert "missing from the job log" in told_when(lambda: named(log, "Typed after"))
    assert log.load("A-0001")
    log.close()
    condition = SqliteUpkeep(home).tend(at=AT)
    assert any("missing from the job log (A-0001)" in fault.says for fault in condition.faults)
    assert SqliteUpkeep(home).tend(at=AT, mend=True).well
    log = SqliteJobLog.open(home)
    named(log, "Typed after")
    assert "missing from the job log (A-0001)" in SqliteUpkeep(home).tend(at=AT).unproven[0].says
    log.close()


def test_an_older_file_put_in_the_place_of_the_log_is_told(home, open_log, tmp_path):
    open_log.close()
    shutil.copy(home / FILE_NAME, tmp_path / "older")
    log = SqliteJobLog.open(home)
    named(log, "Typed since")
    log.close()
    shutil.copy(tmp_path / "older", home / FILE_NAME)
    log = SqliteJobLog.open(home)
    assert "The last change that was kept is missing" in log.refuses()
    log.close()


def test_a_lock_that_another_program_holds_is_waited_for_then_refused_in_a_sentence_and_needed_by_no_reader(
    home, open_log, monkeypatch
):
    monkeypatch.setattr("storage.turn.PATIENCE", 0.02)
    said: list[str] = []
    held = Turn(home)
    with held.taken():
        assert "has not let go" in told_when(lambda: named(open_log, "Typed meanwhile"))
        assert open_log.load("A-0001")
        waiting = Turn(home, said.append)
        with pytest.raises(BusyError), waiting.taken():
            pass
        # It asks again where it stood in the queue.
        with pytest.raises(BusyError), waiting.taken():
            pass
    held.close()
    named(open_log, "Typed after")
    with waiting.taken():
        pass
    waiting.close()
    assert said == ["Another program is at the job log; waiting for it."] * 2
    assert (home / LOCK_NAME).exists()
