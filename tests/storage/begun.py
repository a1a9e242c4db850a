"""A log just begun, as tests need by the hundred: one is begun, and every other one is a copy of its files."""

import tempfile
from collections.abc import Callable
from functools import cache
from pathlib import Path

from storage.sqlite_job_log import SqliteJobLog


def begun_log(home: Path, waiting: Callable[[str], None] | None = None) -> SqliteJobLog:
    """The log in a folder, begun where there is none; `waiting` is told of another program that holds it."""
    if not home.exists():
        put_begun_log(home)
    return SqliteJobLog.open(home, waiting)


def put_begun_log(home: Path) -> None:
    """A new folder with a log that nobody has open. All such logs have one name and one key."""
    home.mkdir(mode=0o700, parents=True)
    for name, (held, mode) in _files_of_one().items():
        path = home / name
        path.write_bytes(held)
        path.chmod(mode)


@cache
def _files_of_one() -> dict[str, tuple[bytes, int]]:
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder, "log")
        SqliteJobLog.open(home).close()
        return {path.name: (path.read_bytes(), path.stat().st_mode) for path in home.iterdir()}
