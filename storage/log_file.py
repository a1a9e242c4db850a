"""The open file of a job log: its settings, and one write at a time."""

import threading
from collections.abc import Generator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from domain.log.job_log import BusyError, JobLogError, LogGoneError, NotWritableError
from storage.driver import Connection, sqlite3
from storage.errors import as_job_log_error
from storage.turn import AT_ONCE, Turn
from storage.witness import Seen, Witness

FILE_NAME = "ohmfolio.db"
MOVED_TO = "moved-to"
"""The file that says where a log went that is not to be used here any more."""

Row = tuple[Any, ...]


class LogFile:
    """One connection, shared by the threads of this process; other processes are kept in turn by a lock file.

    The turn-taking is by a lock beside the file, held for every write, for setting up and for closing. It queues
    fairly, where SQLite's own waiting can starve a writer, and it keeps two connections from writing and tidying
    the write-ahead log at once, which SQLite before 3.51.3 can in rare cases turn into damage.
    """

    def __init__(
        self,
        home: Path,
        connection: Connection,
        turn: Turn | None = None,
        *,
        witness: Witness | None = None,
        refuses: str = "",
        in_turn: bool = True,
    ) -> None:
        """Without a turn it is for reading. `refuses` is why nothing can be written, where nothing can.

        `in_turn`: the turn was had while it was opened; without, nothing was looked after that a write looks after.
        """
        self.home = home
        self.refuses = refuses
        self.in_turn = in_turn
        self._connection = connection
        self._turn = turn
        self._witness = witness
        self._known_as = _identity(home) if turn else None
        self._told: list[Seen] = []
        self._wrote = False
        self._thread = threading.RLock()

    def run(self, statement: str, values: dict[str, Any] | tuple[Any, ...] = ()) -> list[Row]:
        """Run a statement; its whole answer, for a half-read one would keep the write-ahead log growing."""
        with self._thread:
            try:
                return self._connection.execute(statement, values).fetchall()
            except (sqlite3.Error, UnicodeEncodeError) as trouble:
                raise as_job_log_error(trouble, self.home) from trouble

    def run_unanswered(self, statement: str, values: tuple[Any, ...]) -> None:
        """Run a write: in a file there is nothing to wait for."""
        self.run(statement, values)

    def first(self, statement: str, values: dict[str, Any] | tuple[Any, ...] = ()) -> Row | None:
        """The first row of an answer."""
        return next(iter(self.run(statement, values)), None)

    def tell(self, seq: int, head: bytes, about: str) -> None:
        """Have the witness told of what a write keeps, once it is on disk."""
        self._told.append(Seen(seq, head.hex(), about))

    @contextmanager
    def reading(self) -> Generator[None]:
        """All reads inside it see the log as it stood at the first of them, whoever writes meanwhile."""
        with self._thread:
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
        with self._thread:
            if self.refuses or self._turn is None:
                raise NotWritableError(self.refuses)
            self._told.clear()
            try:
                with self._turn.taken():
                    self._must_be_there()
                    self._wrote = True
                    with transaction(self._connection):
                        yield
                        self._must_be_there()
                    self._bear_witness()
            except (OSError, sqlite3.Error) as trouble:
                raise as_job_log_error(trouble, self.home) from trouble

    def close(self) -> None:
        """Let go of the file; once is enough."""
        with self._thread, suppress(OSError, sqlite3.Error, JobLogError):
            turn, self._turn = self._turn, None
            if turn is None:
                self._connection.close()
                return
            try:
                self._close_in(turn)
            finally:
                turn.close()
                if self._witness:
                    self._witness.close()

    def _close_in(self, turn: Turn) -> None:
        """In turn, for to close may tidy the write-ahead log; whoever only read leaves that to the others."""
        try:
            with turn.taken(None if self._wrote else AT_ONCE):
                self._connection.close()
        except BusyError:
            if self._wrote:
                raise
            # Somebody else has it open, so this is not the last to close it, and tidies nothing.
            self._connection.close()

    def _must_be_there(self) -> None:
        """The file that is written to is still the one that people find in the folder."""
        if _identity(self.home) != self._known_as:
            raise LogGoneError(
                f"The job log in {self.home} was moved, deleted or replaced while it was open. This was not saved. "
                "Put it back, or save a copy of the job elsewhere before you leave."
            )

    def _bear_witness(self) -> None:
        if self._witness and self._told:
            # It is on disk already: whatever becomes of the witness, it was saved.
            with suppress(OSError):
                self._witness.saw(self._told)


@contextmanager
def transaction(connection: Connection) -> Generator[None]:
    """All that is run inside is on disk when it ends, or nothing of it."""
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:
            with suppress(sqlite3.Error):
                connection.execute("ROLLBACK")
        raise


def _identity(home: Path) -> tuple[int, int] | None:
    """Which file lies in the folder. It is looked at by its name alone: to open it would drop this process's locks."""
    try:
        status = (home / FILE_NAME).stat()
    except OSError:
        return None
    return status.st_dev, status.st_ino
