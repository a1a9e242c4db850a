"""How the log of a folder is opened: begun where there is none, brought up to date, held against its witness."""

import os
import secrets
from collections.abc import Callable, Generator
from contextlib import closing, contextmanager, suppress
from pathlib import Path

from domain.log.job_log import BusyError, JobLogError
from storage.access import make_file
from storage.driver import Connection, sqlite3
from storage.errors import as_job_log_error
from storage.files import sync_folder
from storage.issued_papers import KEPT
from storage.layout import check_guards, needs_migrating
from storage.log_file import FILE_NAME, MOVED_TO, LogFile, transaction
from storage.reading_alone import read_alone
from storage.turn import AT_ONCE, Turn
from storage.witness import WITNESS, Witness, account_in
from storage.witnessing import WITNESS_TASK, begin_witness, disagreement

_PATIENCE = 10.0
_SETTINGS = ("synchronous = FULL", "foreign_keys = ON", "recursive_triggers = ON")
COPIES, COPY_ENDING = "copies", ".ohmfolio"
"""Where copies of days lie, and what their names end in."""
Waiting = Callable[[str], None]


def open_log(home: Path, waiting: Waiting | None = None) -> LogFile:
    """Open the log in a folder, making both where there are none; private to the person unless made otherwise.

    `waiting` is told where another program has to be waited for. One that cannot be written, for the disk is full or
    read-only, is open for reading alone and says why it refuses more.
    """
    try:
        return _open_for_use(home, waiting)
    except JobLogError as trouble:
        return read_alone(home, trouble)


def _open_for_use(home: Path, waiting: Waiting | None) -> LogFile:
    with _said_plainly(home):
        make_home(home)
        turn = Turn(home, waiting)
        with _closing_on_trouble(turn):
            try:
                with turn.taken(AT_ONCE):
                    return _opened_or_begun(home, turn)
            except BusyError:
                if file := _opened_as_set_up(home, turn):
                    return file
            with turn.taken():
                return _opened_or_begun(home, turn)


def open_as_it_is(home: Path) -> LogFile:
    """Open a log that is there but may not be fit for use: it is not set up, and nothing is asked of it."""
    try:
        with _said_plainly(home):
            turn = Turn(home)
            with _closing_on_trouble(turn), suppress(BusyError), turn.taken(AT_ONCE):
                return _connected_as_it_is(home, turn)
            with _closing_on_trouble(turn):
                return _connected_as_it_is(home, turn)
    except JobLogError as trouble:
        return read_alone(home, trouble)


def _connected_as_it_is(home: Path, turn: Turn) -> LogFile:
    connection = _connected(home / FILE_NAME)
    connection.execute("PRAGMA synchronous = FULL")
    return LogFile(home, connection, turn, witness=Witness.opened(home))


def make_home(home: Path) -> None:
    """Make the folder of a log where there is none."""
    if not home.is_dir():
        home.mkdir(mode=0o700, parents=True, exist_ok=True)


@contextmanager
def turn_in(home: Path) -> Generator[None]:
    """Hold the turn of a log that this program has not open: nobody else opens it, writes to it or closes it."""
    make_home(home)
    with closing(Turn(home)) as turn, turn.taken():
        yield


def _must_not_have_moved(home: Path) -> None:
    with suppress(FileNotFoundError):
        to = (home / MOVED_TO).read_text(encoding="utf-8")
        raise JobLogError(f"The job log in {home} was moved to {to}. Nothing can be done in this one any more.")


def has_log_in(home: Path) -> bool:
    """A log is there; JobLogError where one was, and is gone."""
    must_not_have_lost_its_log(home)
    return (home / FILE_NAME).exists()


def must_not_have_lost_its_log(home: Path) -> None:
    """Where a log was, none is begun anew, for that would hide what was lost; JobLogError, which says so."""
    path = home / FILE_NAME
    if path.exists():
        if path.stat().st_size:
            return
        says = f"{path} is empty, and no log is: it was cut off. If nothing was ever kept here, delete it."
    elif (home / WITNESS).exists() or any((home / KEPT).glob("*.pdf")):
        says = f"There was a job log in {home}, and it is gone: deleted or moved, while its papers were left."
    else:
        return
    copies = sorted((home / COPIES).glob(f"*{COPY_ENDING}"), key=lambda copy: copy.stat().st_mtime)
    raise JobLogError(
        f"{says} Nothing has been changed. Put it back as it was, or go back to a copy: ohmfolio restore "
        f"{copies[-1] if copies else 'COPY'}. A new log begins in another folder, which OHMFOLIO_HOME names."
    )


def _opened_or_begun(home: Path, turn: Turn) -> LogFile:
    _must_not_have_moved(home)
    must_not_have_lost_its_log(home)
    if not (home / FILE_NAME).exists():
        _begin(home)
    return _opened(home, turn)


def _opened_as_set_up(home: Path, turn: Turn) -> LogFile | None:
    """The log while somebody else has the turn; None where something is to be done to it first."""
    path = home / FILE_NAME
    if not path.exists() or not path.stat().st_size:
        return None
    _must_not_have_moved(home)
    connection = _connected(path)
    try:
        if not needs_migrating(connection, home):
            _set_up(connection, home)
            file = LogFile(home, connection, turn)
            if not file.first("SELECT 1 FROM pending_task"):
                # The account is read before the end of the log it is held against, which only grows.
                refuses = disagreement(file, account_in(home))
                return LogFile(home, connection, turn, witness=Witness.opened(home), refuses=refuses, in_turn=False)
    except BaseException:
        connection.close()
        raise
    connection.close()
    return None


def _opened(home: Path, turn: Turn) -> LogFile:
    connection = _connected(home / FILE_NAME)
    try:
        _set_up(connection, home)
        file = LogFile(home, connection, turn)
        # Where there is a witness, nobody but a person begins another: it would bear out whatever the log says now.
        is_asked = file.first("SELECT 1 FROM pending_task WHERE name = ?", (WITNESS_TASK,))
        if is_asked and not os.path.lexists(home / WITNESS):
            with transaction(connection):
                begin_witness(file)
        refuses = disagreement(file, account_in(home))
        if is_asked and not refuses:
            connection.execute("DELETE FROM pending_task WHERE name = ?", (WITNESS_TASK,))
        return LogFile(home, connection, turn, witness=Witness.opened(home), refuses=refuses)
    except BaseException:
        connection.close()
        raise


def _begin(home: Path) -> None:
    """A new log is made under another name first, so that an empty file is never taken for one."""
    part = home / f".{secrets.token_hex(8)}.part"
    try:
        os.close(make_file(part))
        with closing(_connected(part)) as connection:
            _set_up(connection, home)
        part.rename(home / FILE_NAME)
        sync_folder(home)
    finally:
        for ending in ("", "-wal", "-shm"):
            part.with_name(f"{part.name}{ending}").unlink(missing_ok=True)


def _connected(path: Path) -> Connection:
    return sqlite3.connect(path, timeout=_PATIENCE, isolation_level=None, check_same_thread=False)


def _set_up(connection: Connection, home: Path) -> None:
    outdated = needs_migrating(connection, home)
    if connection.execute("PRAGMA journal_mode = WAL").fetchall()[0][0] != "wal":
        raise JobLogError(f"The disk under {home} cannot keep a job log safely. Choose a folder on a local disk.")
    for setting in _SETTINGS:
        connection.execute(f"PRAGMA {setting}")
    if outdated:
        from storage.migrations import migrate

        with transaction(connection):
            migrate(connection)
    check_guards(connection, home)


@contextmanager
def _said_plainly(home: Path) -> Generator[None]:
    try:
        yield
    except (OSError, sqlite3.Error) as trouble:
        raise as_job_log_error(trouble, home) from trouble


@contextmanager
def _closing_on_trouble(turn: Turn) -> Generator[None]:
    try:
        yield
    except BaseException:
        turn.close()
        raise
