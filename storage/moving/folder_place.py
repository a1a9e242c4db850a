"""A folder, as where a log is moved from or to."""

import os
import shutil
from collections.abc import Generator
from contextlib import closing, contextmanager
from datetime import datetime
from pathlib import Path

from domain.log.job_log import JobLogError
from domain.log.upkeep import CopyProof, LogFault
from storage.access import make_file, make_folder
from storage.driver import Connection, sqlite3
from storage.errors import as_job_log_error
from storage.files import sync_folder
from storage.issued_papers import KEPT
from storage.log_file import FILE_NAME, MOVED_TO, LogFile
from storage.moving.folder_end import FolderEnd
from storage.opening import turn_in
from storage.sqlite_store import SqliteStore
from storage.upkeep.copy_file import proved
from storage.upkeep.records import faults_of_numbers, faults_of_papers
from storage.upkeep.restoring import must_not_be_open
from storage.witness import WITNESS

_BEING_FILLED = "being-moved-here"
_MARK = "mark"


class FolderPlace:
    """Fulfils `storage.moving.moving.LogSource` and `LogDestination`."""

    def __init__(self, home: Path) -> None:
        self._home = home

    @property
    def _being_filled(self) -> Path:
        return self._home / _BEING_FILLED

    def whole(self) -> CopyProof:
        """What it holds, where it is whole."""
        path = self._home / FILE_NAME
        if not path.exists():
            raise JobLogError(f"There is no job log in {self._home}.")
        if not (self._home / MOVED_TO).exists():
            self._bring_up_to_date()
        proof, faults = self.proved()
        for fault in faults:
            raise JobLogError(
                f"The job log in {self._home} is not whole: {fault.says} Nothing was moved; see ohmfolio tend."
            )
        return proof

    def proved(self) -> tuple[CopyProof, list[LogFault]]:
        """What it holds now, and what is wrong with it."""
        proof = proved(self._home / FILE_NAME)
        with closing(_connected(self._home)) as connection:
            file = LogFile(self._home, connection)
            return proof, [*faults_of_numbers(file), *faults_of_papers(file)]

    @contextmanager
    def left_open(self, to: str) -> Generator[FolderEnd]:
        """The log, to be read. Whoever has it open keeps it from being moved."""
        with _on_trouble_in(self._home), turn_in(self._home):
            must_not_be_open(self._home / FILE_NAME)
            gone = self._home / MOVED_TO
            if gone.exists() and (before := gone.read_text(encoding="utf-8")) != to:
                raise JobLogError(f"The job log in {self._home} was moved to {before} already.")
            with closing(_connected(self._home)) as connection:
                yield FolderEnd(self._home, connection)

    def leave(self, to: str) -> None:
        """Say where the log went."""
        _write(self._home / MOVED_TO, to)
        sync_folder(self._home)

    @contextmanager
    def filled(self, mark: str, at: datetime) -> Generator[FolderEnd]:
        """A log in a folder of its own, which is nobody's before it is whole."""
        with _on_trouble_in(self._home), turn_in(self._home):
            if (self._home / FILE_NAME).exists():
                self._set_aside(at)
            begun = self._being_filled / _MARK
            if not begun.exists() or begun.read_text(encoding="utf-8") != mark:
                shutil.rmtree(self._being_filled, ignore_errors=True)
                SqliteStore.open(self._being_filled).close()
                _write(begun, mark)
            with closing(_connected(self._being_filled)) as connection:
                yield FolderEnd(self._being_filled, connection)

    def ready(self) -> None:
        """Put the log in its place. Opening it makes the lines and search words."""
        with _on_trouble_in(self._home), turn_in(self._home):
            # The file comes last: with it, it is a log.
            for name in (KEPT, FILE_NAME):
                if (self._being_filled / name).exists():
                    (self._being_filled / name).rename(self._home / name)
            sync_folder(self._home)
            shutil.rmtree(self._being_filled, ignore_errors=True)
        SqliteStore.open(self._home).close()

    def _bring_up_to_date(self) -> None:
        """What an earlier program kept, as this one keeps it; a log that refuses to go on is not moved."""
        with closing(SqliteStore.open(self._home)) as store:
            if refuses := store.refuses():
                raise JobLogError(refuses)
            own = store.exchange.station(store.exchange.own())
            if own and not own.is_office:
                raise JobLogError(
                    f"The job log in {self._home} is that of a laptop, and stays on it; the one of the office can be moved."
                )

    def _set_aside(self, at: datetime) -> None:
        """Keep a log that went elsewhere before; any other is not written over."""
        if not (self._home / MOVED_TO).exists():
            raise JobLogError(f"{self._home} holds a job log already, and is not written over. Name another folder.")
        must_not_be_open(self._home / FILE_NAME)
        aside = self._home / f"before-move-{at:%Y%m%d-%H%M%S}"
        make_folder(aside)
        for name in (KEPT, f"{FILE_NAME}-wal", f"{FILE_NAME}-shm", FILE_NAME, WITNESS, MOVED_TO):
            if (self._home / name).exists():
                (self._home / name).rename(aside / name)
        sync_folder(self._home)


def _connected(home: Path) -> Connection:
    connection = sqlite3.connect(home / FILE_NAME, isolation_level=None)
    connection.execute("PRAGMA foreign_keys = ON")
    return connection


def _write(path: Path, text: str) -> None:
    path.unlink(missing_ok=True)
    with os.fdopen(make_file(path), "w", encoding="utf-8") as file:
        file.write(text)


@contextmanager
def _on_trouble_in(home: Path) -> Generator[None]:
    try:
        yield
    except (OSError, sqlite3.Error) as trouble:
        raise as_job_log_error(trouble, home) from trouble
