from collections.abc import Iterator
from pathlib import Path

import pytest

from domain.log.job_log import JobLog
from domain.log.store import Store
from domain.log.stored_log import StoredLog
from storage.set_by import set_by
from storage.signing_phrase import ScryptPhrases
from storage.sqlite_job_log import SqliteJobLog
from storage.sqlite_store import SqliteStore
from tests.storage.memory_log import MemoryStore


@pytest.fixture
def home(tmp_path: Path) -> Path:
    return tmp_path / "log"


@pytest.fixture
def sqlite_log(home: Path) -> Iterator[SqliteJobLog]:
    log = SqliteJobLog.open(home)
    yield log
    log.close()


@pytest.fixture(params=["in memory", "in SQLite"])
def store(request: pytest.FixtureRequest, home: Path) -> Iterator[Store]:
    """Each store in turn."""
    store: Store = MemoryStore() if request.param == "in memory" else SqliteStore.open(home)
    yield store
    store.close()


@pytest.fixture
def log(store: Store) -> JobLog:
    """The log over each store in turn, seen only through the port."""
    return StoredLog(store, set_by, ScryptPhrases)
