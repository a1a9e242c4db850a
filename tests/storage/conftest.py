from collections.abc import Iterator
from pathlib import Path

import pytest

from domain.log.job_log import JobLog
from domain.log.store import Store
from domain.log.stored_log import StoredLog
from storage.postgres.postgres_store import PostgresStore
from storage.postgres.server_address import ServerAddress
from storage.set_by import set_by
from storage.sqlite_job_log import SqliteJobLog
from storage.sqlite_store import SqliteStore
from tests.storage.begun import begun_log, put_begun_log
from tests.storage.database_server import DatabaseServer, emptied
from tests.storage.memory_log import MemoryStore, quick_phrases


@pytest.fixture
def home(tmp_path: Path) -> Path:
    return tmp_path / "log"


@pytest.fixture
def sqlite_log(home: Path) -> Iterator[SqliteJobLog]:
    log = begun_log(home)
    yield log
    log.close()


@pytest.fixture
def address(database_server: DatabaseServer) -> ServerAddress:
    """Where an empty log is on the server."""
    address = database_server.address("postgres")
    emptied(address)
    return address


@pytest.fixture(params=["in memory", "in SQLite", "on PostgreSQL"])
def store(request: pytest.FixtureRequest, home: Path) -> Iterator[Store]:
    """Each store in turn."""
    if request.param == "in memory":
        store: Store = MemoryStore()
    elif request.param == "in SQLite":
        put_begun_log(home)
        store = SqliteStore.open(home)
    else:
        store = PostgresStore.open(request.getfixturevalue("address"))
    yield store
    store.close()


@pytest.fixture
def log(store: Store) -> JobLog:
    """The log over each store in turn, seen only through the port."""
    return StoredLog(store, set_by, quick_phrases)
