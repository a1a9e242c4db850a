"""A disk that is full or read-only, and a lock that another holds, keep nobody from reading: find, check, tend, hand over."""

import json
import os
import resource
import shutil
import subprocess
from collections.abc import Generator
from contextlib import contextmanager
from pathlib import Path

import pytest

from domain.log.job_log import Query, State
from storage.log_file import FILE_NAME
from storage.sqlite_job_log import SqliteJobLog
from storage.turn import Turn
from storage.upkeep.sqlite_upkeep import SqliteUpkeep
from tests.builders import AT, complete_minor_works, enter
from tests.storage.children import ended, forked
from tests.storage.issuing import WHO, issued_in
from tests.storage.test_trouble import told_when
from tests.tui.commands.command_line import ohmfolio

READS = (("find", "A-0001"), ("check", "A-0002"), ("hand-over", "--all"))


@pytest.fixture(scope="module")
def made(tmp_path_factory) -> Path:
    home = tmp_path_factory.mktemp("made") / "log"
    log = SqliteJobLog.open(home)
    issued_in(log)
    log.create(complete_minor_works(), who=WHO, at=AT)
    log.close()
    return home


@pytest.fixture
def home(made, tmp_path) -> Path:
    return shutil.copytree(made, tmp_path / "log")


def read_alone(home: Path, says: str) -> None:
    """All that reads works on a log, and what would be kept is refused with its reason."""
    log = SqliteJobLog.open(home)
    assert says in log.refuses()
    assert log.line("A-0001").state is State.ISSUED
    assert len(log.find(Query())) == 2
    assert says in told_when(lambda: log.edit("A-0002", enter("client", "name", "X"), who=WHO, at=AT))
    log.close()
    condition = SqliteUpkeep(home).tend(at=AT)
    assert condition.faults == ()
    assert "search index was not held" in condition.unproven[-1].says


@contextmanager
def mounted_read_only(home: Path, at: Path) -> Generator[Path]:
    at.mkdir()
    if subprocess.run(["mount", "--bind", "-o", "ro", home, at], capture_output=True, check=False).returncode:
        pytest.skip("nothing may be mounted here")
    try:
        yield at
    finally:
        subprocess.run(["umount", "-l", at], check=True)


@pytest.mark.skipif(os.geteuid() != 0, reason="only the superuser may mount a disk")
def test_a_log_on_a_read_only_disk_is_read_and_a_copy_of_it_opens_elsewhere(home, tmp_path):
    SqliteUpkeep(home).back_up(str(home / "copy.ohmfolio"))
    with mounted_read_only(home, tmp_path / "read-only") as disk:
        read_alone(disk, "is read-only")
        assert told_when(lambda: SqliteJobLog.open(disk / "log"))
        for words in READS:
            said = ohmfolio(*words, home=disk)
            assert (said.code, bool(said.out)) == (0, True), (words, said)
            assert "is read-only" in said.error + said.out
        SqliteUpkeep(tmp_path / "elsewhere").restore(str(disk / "copy.ohmfolio"), at=AT)
    log = SqliteJobLog.open(tmp_path / "elsewhere")
    assert log.line("A-0002").state is State.READY
    log.close()


@pytest.mark.skipif(os.geteuid() != 0, reason="only the superuser may mount a disk")
def test_what_others_keep_meanwhile_is_read_there_too(home, tmp_path):
    writing = SqliteJobLog.open(home)
    writing.edit("A-0002", enter("client", "name", "Kept meanwhile"), who=WHO, at=AT)
    with mounted_read_only(home, tmp_path / "read-only") as disk:
        reading = SqliteJobLog.open(disk)
        assert reading.load("A-0002").client.name == "Kept meanwhile"
        reading.close()
    writing.close()


def test_a_log_on_a_full_disk_is_read(home):
    def work() -> None:
        # Not one byte more, as on a disk that is full.
        resource.setrlimit(resource.RLIMIT_FSIZE, (0, resource.RLIM_INFINITY))
        read_alone(home, "did not take it")

    assert ended(forked(work)) == 0


def test_a_lock_that_another_holds_keeps_nobody_from_opening_reading_and_leaving(home, monkeypatch):
    monkeypatch.setattr("storage.turn.PATIENCE", 0.02)
    held = Turn(home)
    with held.taken():
        log = SqliteJobLog.open(home)
        assert (log.refuses(), log.line("A-0001").state) == ("", State.ISSUED)
        assert "has not let go" in told_when(lambda: log.edit("A-0002", enter("client", "name", "X"), who=WHO, at=AT))
        log.close()
        condition = SqliteUpkeep(home).tend(at=AT)
        assert condition.faults == ()
        assert "has not let go" in condition.unproven[-1].says
        assert json.loads(ohmfolio("hand-over", "A-0001", home=home).out)["number"] == "A-0001"
    held.close()
    log = SqliteJobLog.open(home)
    log.edit("A-0002", enter("client", "name", "Kept after"), who=WHO, at=AT)
    log.close()
    assert (home / FILE_NAME).exists()
