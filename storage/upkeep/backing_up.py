"""Copies of the log, made while it is in use."""

import fcntl
import hashlib
import os
import re
import secrets
from collections.abc import Generator
from contextlib import closing, contextmanager, suppress
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

from domain.log.chain import NO_RECORD
from domain.log.job_log import JobLogError
from domain.log.upkeep import Copy
from storage.access import make_file, make_folder
from storage.driver import sqlite3
from storage.errors import DamagedError, as_job_log_error
from storage.files import sync_folder
from storage.issued_papers import KEPT
from storage.ledger import LedgerEnd, end_of
from storage.log_file import FILE_NAME, LogFile
from storage.opening import COPIES, COPY_ENDING, open_as_it_is
from storage.renaming import rename_new
from storage.sqlite_job_log import SqliteJobLog
from storage.upkeep.copy_file import PAPERS, opened, proved
from storage.witness import account_in

_OF_A_DAY = re.compile(r"\d{4}-\d\d-\d\d" + re.escape(COPY_ENDING))


def back_up(home: Path, to: Path, *, phrase: str = "") -> Copy:
    """Write a copy of the log with its issued papers into a new file, and prove it; with its key where a phrase locks it."""
    _must_have_log(home)
    if to.exists():
        raise JobLogError(f"{to} exists already and is not written over. Give another name.")
    if not to.parent.is_dir():
        raise JobLogError(f"There is no folder {to.parent}.")
    with _on_trouble_with(to), _part_beside(to) as part:
        _copy_log(home, part)
        papers, missing = _add_papers(home, part)
        if phrase:
            _add_key(home, part, phrase)
        proof = proved(part)
        _sync(part)
        rename_new(part, to)
        sync_folder(to.parent)
    return Copy(path=str(to), proof=proof, papers=papers, missing=missing, holds_key=bool(phrase))


def copy_of_the_day(home: Path, *, at: datetime, keep: int) -> Copy | None:
    """Keep today's copy beside the log, and only so many days' in all; None where nothing has changed since."""
    _must_have_log(home)
    folder = home / COPIES
    to = folder / f"{at.date().isoformat()}{COPY_ENDING}"
    with _on_trouble_with(to):
        make_folder(folder)
        with _alone_in(folder) as alone, _part_beside(to) as part:
            if not alone or not is_due(home):
                return None
            _copy_log(home, part)
            proof = proved(part)
            _sync(part)
            part.replace(to)
            sync_folder(folder)
            for old in _copies_in(folder)[:-keep]:
                old.path.unlink()
    return Copy(path=str(to), proof=proof, papers=0)


def is_due(home: Path) -> bool:
    """The log has kept more since the last copy of a day was made. Cheap, and whatever the clocks say."""
    account = account_in(home)
    copies = _copies_in(home / COPIES)
    return account is None or account.end.head not in {each.end.head.hex() for each in copies}


class _CopyOfDay(NamedTuple):
    """A copy of a day, by what it holds: its name is only what a clock said."""

    generation: int
    """How often the log had been gone back to a copy of."""
    end: LedgerEnd
    path: Path


def _copies_in(folder: Path) -> list[_CopyOfDay]:
    """Copies of days, the oldest first by the log's own count."""
    return sorted(map(_looked_at, (path for path in folder.glob(f"*{COPY_ENDING}") if _OF_A_DAY.fullmatch(path.name))))


def _looked_at(path: Path) -> _CopyOfDay:
    """One that cannot be read, or was made by an earlier version, counts as the oldest."""
    with suppress(JobLogError), opened(path) as copy:
        file = LogFile(path, copy)
        ((generation,),) = file.run("SELECT count(*) FROM device")
        return _CopyOfDay(generation, end_of(file), path)
    return _CopyOfDay(0, LedgerEnd(0, NO_RECORD), path)


def _copy_log(home: Path, part: Path) -> None:
    # Opened as for use first: a log that cannot be used is looked after before it is copied.
    SqliteJobLog.open(home).close()
    os.close(make_file(part))
    file = open_as_it_is(home)
    try:
        # Read in one go: a copy made in steps begins anew whenever somebody writes.
        file.run("VACUUM INTO ?", (str(part),))
    finally:
        file.close()


def _add_papers(home: Path, part: Path) -> tuple[int, tuple[str, ...]]:
    held, missing = 0, list[str]()
    with closing(sqlite3.connect(part, isolation_level=None)) as copy:
        copy.execute("PRAGMA synchronous = OFF")
        copy.execute("BEGIN")
        copy.execute(PAPERS)
        for number, sha in copy.execute("SELECT number, pdf_sha FROM issued ORDER BY seq").fetchall():
            pdf = _paper(home / KEPT / f"{number}.pdf")
            if hashlib.sha256(pdf).digest() == sha:
                copy.execute("INSERT INTO paper (number, pdf) VALUES (?, ?)", (number, pdf))
                held += 1
            else:
                missing.append(number)
        copy.execute("COMMIT")
    return held, tuple(missing)


def _add_key(home: Path, part: Path, phrase: str) -> None:
    from storage.upkeep.key_upkeep import lock_into

    with closing(sqlite3.connect(part, isolation_level=None)) as copy:
        lock_into(copy, home, phrase)


def _paper(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError:
        return b""


def _must_have_log(home: Path) -> None:
    if not (home / FILE_NAME).exists():
        raise JobLogError(f"There is no job log in {home}.")


@contextmanager
def _part_beside(to: Path) -> Generator[Path]:
    part = to.with_name(f".{secrets.token_hex(8)}.part")
    try:
        yield part
    finally:
        for left in (part, part.with_name(f"{part.name}-journal")):
            left.unlink(missing_ok=True)


@contextmanager
def _alone_in(folder: Path) -> Generator[bool]:
    """Nobody else is making the copy of the day."""
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        try:
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            yield False
        else:
            yield True
    finally:
        os.close(descriptor)


@contextmanager
def _on_trouble_with(to: Path) -> Generator[None]:
    try:
        yield
    except FileExistsError as trouble:
        raise JobLogError(f"{to} exists already and is not written over. Give another name.") from trouble
    except DamagedError as trouble:
        raise DamagedError(
            "The log is not whole, so no copy was made; `ohmfolio tend` says what is wrong."
        ) from trouble
    except OSError as trouble:
        raise JobLogError(f"{to} cannot be written: {trouble.strerror or trouble}. No copy was made.") from trouble
    except sqlite3.Error as trouble:
        raise as_job_log_error(trouble, to.parent) from trouble


def _sync(path: Path) -> None:
    descriptor = os.open(path, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
