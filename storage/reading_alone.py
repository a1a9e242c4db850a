"""A log that cannot be written where it lies, for the disk is full or read-only, opened to be read."""

import os
from contextlib import suppress
from pathlib import Path

from domain.log.job_log import JobLogError, NotWritableError
from storage.driver import Connection, sqlite3
from storage.errors import as_job_log_error
from storage.layout import check_guards, needs_migrating
from storage.log_file import FILE_NAME, LogFile
from storage.witness import account_in
from storage.witnessing import disagreement

_ALONE = "The log is open for reading alone; once that is settled, start anew to have more kept."


def read_alone(home: Path, trouble: JobLogError) -> LogFile:
    """The log, as far as it can be read although nothing can be kept in it; else the trouble is raised again."""
    if not isinstance(trouble, NotWritableError):
        raise trouble
    try:
        connection = connected_to_read(home / FILE_NAME)
    except (OSError, sqlite3.Error):
        raise trouble from None
    try:
        if needs_migrating(connection, home):
            raise trouble
        check_guards(connection, home)
        file = LogFile(home, connection)
        file.refuses = " ".join(filter(None, (str(trouble), _ALONE, disagreement(file, account_in(home)))))
    except sqlite3.Error as other:
        connection.close()
        raise as_job_log_error(other, home) from other
    except BaseException:
        connection.close()
        raise
    return file


def connected_to_read(path: Path) -> Connection:
    """The file of a log, to be read and nothing else. Without a place to note who reads, it can be read only where nothing waits in the file of its latest changes."""
    try:
        return _tried(path, "mode=ro")
    except sqlite3.Error:
        if _size(path.with_name(f"{path.name}-wal")):
            raise
    return _tried(path, "mode=ro&immutable=1")


def _tried(path: Path, how: str) -> Connection:
    connection = sqlite3.connect(
        f"{path.absolute().as_uri()}?{how}", uri=True, isolation_level=None, check_same_thread=False
    )
    try:
        connection.execute("SELECT count(*) FROM sqlite_master").fetchall()
    except sqlite3.Error:
        connection.close()
        raise
    return connection


def _size(path: Path) -> int:
    with suppress(OSError):
        return os.stat(path).st_size  # noqa: PTH116 - a name that cannot be looked at counts as none
    return 0
