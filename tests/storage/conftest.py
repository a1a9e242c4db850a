from collections.abc import Callable, Iterator
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


STORES = ("in memory", "in SQLite", "on PostgreSQL")


def opened_store(kind: str, home: Path, address: Callable[[], ServerAddress]) -> Store:
    """An empty store of a kind."""
    if kind == "in memory":
        return MemoryStore()
    if kind == "in SQLite":
        put_begun_log(home)
        return SqliteStore.open(home)
    return PostgresStore.open(address())


@pytest.fixture(params=STORES)
def store(request: pytest.FixtureRequest, home: Path) -> Iterator[Store]:
    """Each store in turn."""
    store = opened_store(request.param, home, lambda: request.getfixturevalue("address"))
    yield store
    store.close()


@pytest.fixture(scope="module", params=STORES)
def log_of_readers(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[JobLog]:
    """An empty log over each store in turn, for the tests of a file that fill it once and then only read."""

    def address() -> ServerAddress:
        server: DatabaseServer = request.getfixturevalue("database_server")
        address = server.address("postgres", "of_readers")
        PostgresStore.open(address).close()
        emptied(address)
        return address

    store = opened_store(request.param, tmp_path_factory.mktemp("readers") / "log", address)
    yield StoredLog(store, set_by, quick_phrases)
    store.close()


@pytest.fixture
def log(store: Store) -> JobLog:
    """The log over each store in turn, seen only through the port."""
    return StoredLog(store, set_by, quick_phrases)
