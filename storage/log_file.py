"""The open file of a job log: its settings, and one write at a time."""

import fcntl
import os
import threading
from collections.abc import Generator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any, Self

from domain.log.job_log import JobLogError
from storage.access import make_file
from storage.driver import Connection, sqlite3
from storage.errors import as_job_log_error
from storage.layout import check_guards, needs_migrating

FILE_NAME = "ohmfolio.db"
LOCK_NAME = "ohmfolio.lock"
MOVED_TO = "moved-to"
"""The file that says where a log went that is not to be used here any more."""
_PATIENCE = 10.0
_SETTINGS = ("synchronous = FULL", "foreign_keys = ON", "recursive_triggers = ON")

Row = tuple[Any, ...]


class LogFile:
    """One connection, shared by the threads of this process; other processes are kept in turn by a lock file.

    The turn-taking is by a lock beside the file, held for every write, for setting up and for closing. It queues
    fairly, where SQLite's own waiting can starve a writer, and it keeps two connections from writing and tidying
    the write-ahead log at once, which SQLite before 3.51.3 can in rare cases turn into damage.
    """

    def __init__(self, home: Path, connection: Connection, lock: int) -> None:
        self.home = home
        self._connection = connection
        self._lock = lock
        self._turn = threading.RLock()

    @classmethod
    def open(cls, home: Path, *, as_it_is: bool = False) -> Self:
        """Open the log in a folder, making both where there are none; private to the person unless made otherwise.

        `as_it_is` opens a log that is there but may not be fit for use: it is not set up, and nothing is asked of it.
        """
        try:
            if not as_it_is:
                _make_private(home)
                _refuse_moved(home)
            lock = _lock_in(home)
            with _closing_on_trouble(lock), _turn_of(lock):
                connection = _connected(home, as_it_is=as_it_is)
        except (OSError, sqlite3.Error) as trouble:
            raise as_job_log_error(trouble, home) from trouble
        return cls(home, connection, lock)

    def run(self, statement: str, values: dict[str, Any] | tuple[Any, ...] = ()) -> list[Row]:
        """Run a statement; its whole answer, for a half-read one would keep the write-ahead log growing."""
        with self._turn:
            try:
                return self._connection.execute(statement, values).fetchall()
            except (sqlite3.Error, UnicodeEncodeError) as trouble:
                raise as_job_log_error(trouble, self.home) from trouble

    def first(self, statement: str, values: dict[str, Any] | tuple[Any, ...] = ()) -> Row | None:
        """The first row of an answer."""
        return next(iter(self.run(statement, values)), None)

    @contextmanager
    def reading(self) -> Generator[None]:
        """All reads inside it see the log as it stood at the first of them, whoever writes meanwhile."""
        with self._turn:
            try:
                self._connection.execute("BEGIN")
                yield
            except sqlite3.Error as trouble:
                raise as_job_log_error(trouble, self.home) from trouble
            finally:
                if self._connection.in_transaction:
                    with suppress(sqlite3.Error):
                        self._connection.execute("ROLLBACK")

    @contextmanager
    def writing(self) -> Generator[None]:
        """One write: all of it is on disk when this ends, or none of it. Reads inside it see nobody's later change."""
        with self._turn:
            try:
                with _turn_of(self._lock), _transaction(self._connection):
                    yield
            except (OSError, sqlite3.Error) as trouble:
                raise as_job_log_error(trouble, self.home) from trouble

    def close(self) -> None:
        """Let go of the file; once is enough."""
        with self._turn, suppress(OSError, sqlite3.Error):
            if self._lock < 0:
                return
            lock, self._lock = self._lock, -1
            with _closing(lock), _turn_of(lock):
                self._connection.close()


@contextmanager
def turn_in(home: Path) -> Generator[None]:
    """Hold the turn of a log that this program has not open: nobody else opens it, writes to it or closes it."""
    _make_private(home)
    lock = _lock_in(home)
    with _closing(lock), _turn_of(lock):
        yield


@contextmanager
def _turn_of(lock: int) -> Generator[None]:
    fcntl.flock(lock, fcntl.LOCK_EX)
    try:
        yield
    finally:
        fcntl.flock(lock, fcntl.LOCK_UN)


@contextmanager
def _transaction(connection: Connection) -> Generator[None]:
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:
            with suppress(sqlite3.Error):
                connection.execute("ROLLBACK")
        raise


@contextmanager
def _closing(lock: int) -> Generator[None]:
    try:
        yield
    finally:
        os.close(lock)


@contextmanager
def _closing_on_trouble(lock: int) -> Generator[None]:
    try:
        yield
    except BaseException:
        os.close(lock)
        raise


def _make_private(home: Path) -> None:
    if not home.is_dir():
        home.mkdir(mode=0o700, parents=True, exist_ok=True)


def _refuse_moved(home: Path) -> None:
    with suppress(FileNotFoundError):
        to = (home / MOVED_TO).read_text(encoding="utf-8")
        raise JobLogError(f"The job log in {home} was moved to {to}. Nothing can be done in this one any more.")


def _lock_in(home: Path) -> int:
    path = home / LOCK_NAME
    try:
        return os.open(path, os.O_RDWR | os.O_CLOEXEC)
    except FileNotFoundError:
        with suppress(FileExistsError):
            return make_file(path)
    # Somebody else made it meanwhile.
    return os.open(path, os.O_RDWR | os.O_CLOEXEC)


def _connected(home: Path, *, as_it_is: bool) -> Connection:
    path = home / FILE_NAME
    # Never opened otherwise once it exists: closing it again would drop this process's locks on it.
    if not path.exists():
        os.close(make_file(path))
    connection = sqlite3.connect(path, timeout=_PATIENCE, isolation_level=None, check_same_thread=False)
    try:
        if as_it_is:
            connection.execute("PRAGMA synchronous = FULL")
        else:
            _set_up(connection, home)
    except BaseException:
        connection.close()
        raise
    return connection


def _set_up(connection: Connection, home: Path) -> None:
    outdated = needs_migrating(connection, home)
    if connection.execute("PRAGMA journal_mode = WAL").fetchall()[0][0] != "wal":
        raise JobLogError(f"The disk under {home} cannot keep a job log safely. Choose a folder on a local disk.")
    for setting in _SETTINGS:
        connection.execute(f"PRAGMA {setting}")
    if outdated:
        from storage.migrations import migrate

        with _transaction(connection):
            migrate(connection)
    check_guards(connection, home)
