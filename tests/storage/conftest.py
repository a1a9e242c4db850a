from collections.abc import Iterator
from pathlib import Path

import pytest

from domain.log.job_log import JobLog
from storage.sqlite_job_log import SqliteJobLog
from tests.storage.memory_log import MemoryJobLog


@pytest.fixture
def home(tmp_path: Path) -> Path:
    return tmp_path / "log"


@pytest.fixture
def sqlite_log(home: Path) -> Iterator[SqliteJobLog]:
    log = SqliteJobLog.open(home)
    yield log
    log.close()


@pytest.fixture(params=["in memory", "in SQLite"])
def log(request: pytest.FixtureRequest, home: Path) -> Iterator[JobLog]:
    """Each log in turn, seen only through the port."""
    log: JobLog = MemoryJobLog() if request.param == "in memory" else SqliteJobLog.open(home)
    yield log
    log.close()
