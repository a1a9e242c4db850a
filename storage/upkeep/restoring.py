"""Going back to a copy: proved first, put in the place of the log in one step, and the log that was there kept aside."""

import fcntl
import hashlib
import os
import secrets
import shutil
from collections.abc import Callable, Generator, Iterable
from contextlib import closing, contextmanager, suppress
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

from domain.job.job_number import prefix_of
from domain.log.job_log import JobLogError
from domain.log.upkeep import CopyProof, Restored
from storage.access import make_file, make_folder
from storage.driver import Connection, sqlite3
from storage.errors import as_job_log_error
from storage.files import sync_folder, write_part
from storage.issued_papers import KEPT
from storage.keys.key_file import KEY_NAME
from storage.log_file import FILE_NAME, LogFile
from storage.opening import open_log, turn_in
from storage.sqlite_job_log import SqliteJobLog
from storage.turn import LOCK_NAME
from storage.upkeep.copy_file import holds_papers, opened
from storage.upkeep.key_upkeep import holds_locked, key_missing
from storage.upkeep.records import proof_of
from storage.upkeep.strange_copy import taken_in
from storage.witness import WITNESS
from storage.witnessing import WITNESS_TASK

_LOCKED_FROM, _LOCKED = 0x40000000, 512
"""The bytes by which SQLite's own locks tell that a file is open (its file format, section on locking)."""


class _Was(NamedTuple):
    """What is known of the log that was there."""

    proof: CopyProof | None
    chain: dict[str, bytes]
    prefixes: frozenset[str]


def restore(
    home: Path,
    copy: Path,
    *,
    at: datetime,
    told: Callable[[int, int], object] = lambda _done, _of: None,
    settled: Callable[[Path], object] = lambda home: SqliteJobLog.open(home).close(),
) -> Restored:
    """Prove a copy and put it in the place of the log, which is kept aside; `settled` opens that for the first time.

    `told` hears, from another thread, how many jobs of how many are proved.
    """
    if not copy.is_file():
        if copy.exists():
            raise JobLogError(f"{copy} is no file that could be a copy, but a folder, pipe or device.")
        raise JobLogError(f"There is no file {copy}.")
    if (home / FILE_NAME).exists() and copy.samefile(home / FILE_NAME):
        raise JobLogError(f"{copy} is the log itself, not a copy of it.")
    try:
        with _leaving_nothing(home), turn_in(home), _private(home) as taken:
            proof, made_anew = taken_in(copy, taken, told)
            restored = _restore(home, taken, proof, at).model_copy(update={"made_anew": made_anew})
    except (OSError, sqlite3.Error) as trouble:
        raise as_job_log_error(trouble, home) from trouble
    settled(home)
    return _with_key(home, restored)


@contextmanager
def _leaving_nothing(home: Path) -> Generator[None]:
    """Where there was no log, a copy that is refused leaves no lock behind, nor a folder that was made for it."""
    had_folder, had_lock = home.exists(), (home / LOCK_NAME).exists()
    try:
        yield
    except BaseException:
        with suppress(OSError):
            if not (had_lock or (home / FILE_NAME).exists()):
                (home / LOCK_NAME).unlink(missing_ok=True)
            if not had_folder:
                home.rmdir()
        raise


def _with_key(home: Path, restored: Restored) -> Restored:
    """What became of the key of the seal, which a copy need not hold."""
    file = open_log(home)
    try:
        told = {"key_missing": key_missing(home, file), "key_is_locked": holds_locked(file)}
        # One of a firm with laptops has letters of its own to go on with.
        ((told["prefix"],),) = file.run("SELECT prefix FROM device WHERE is_here = 1")
    finally:
        file.close()
    return restored.model_copy(update=told)


@contextmanager
def _private(home: Path) -> Generator[Path]:
    """A name in the folder of the log for a file that is gone again afterwards."""
    part = home / f".{secrets.token_hex(8)}.part"
    try:
        yield part
    finally:
        for ending in ("", "-journal", "-wal", "-shm"):
            part.with_name(f"{part.name}{ending}").unlink(missing_ok=True)


def _restore(home: Path, copy: Path, proof: CopyProof, at: datetime) -> Restored:
    must_not_be_open(home / FILE_NAME)
    was = _what_was(home)
    part = home / f".{secrets.token_hex(8)}.part"
    try:
        prefix, chain = _taken(copy, part, was.prefixes)
        aside = _kept_aside(home, at)
        # Left by a log that is gone, it would be held against the one that comes now.
        (home / WITNESS).unlink(missing_ok=True)
        part.replace(home / FILE_NAME)
        sync_folder(home)
    finally:
        part.unlink(missing_ok=True)
    return Restored(
        proof=proof,
        before=was.proof,
        aside=str(aside or ""),
        only_there=tuple(number for number, link in was.chain.items() if chain.get(number) != link),
        missing=tuple(_papers_set_right(home, copy)),
        prefix=prefix,
    )


def must_not_be_open(path: Path) -> None:
    """Nobody opens the log while its turn is held, so that it is open nowhere stays true until that ends."""
    with suppress(FileNotFoundError):
        descriptor = os.open(path, os.O_RDWR)
        try:
            fcntl.lockf(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB, _LOCKED, _LOCKED_FROM)
        except BlockingIOError as trouble:
            raise JobLogError(
                "The log is open in another program. Leave that first; nothing has been changed."
            ) from trouble
        finally:
            os.close(descriptor)


def _what_was(home: Path) -> _Was:
    path, papers = home / FILE_NAME, (home / KEPT).glob("*-*.pdf")
    from_papers = frozenset(prefix_of(paper.name) for paper in papers)
    if not path.exists():
        return _Was(None, {}, from_papers)
    try:
        # Closing it brings what was written last into the file itself.
        with closing(sqlite3.connect(path, isolation_level=None)) as connection:
            chain = dict(connection.execute("SELECT number, chain FROM issued ORDER BY seq").fetchall())
            prefixes = {row[0] for row in connection.execute("SELECT prefix FROM device").fetchall()}
            return _Was(proof_of(LogFile(home, connection)), chain, from_papers | prefixes)
    except (sqlite3.Error, JobLogError):
        return _Was(None, {}, from_papers)


def _taken(copy: Path, part: Path, taken: Iterable[str]) -> tuple[str, dict[str, bytes]]:
    """Write the log that a copy holds into a file, as begun on another machine; that machine's prefix, and the chain."""
    os.close(make_file(part))
    with opened(copy) as source, closing(sqlite3.connect(part, isolation_level=None)) as log:
        source.backup(log)
        if holds_papers(log):
            log.execute("DROP TABLE paper")
            log.execute("VACUUM")
        known = {row[0] for row in log.execute("SELECT prefix FROM device").fetchall()}
        prefix = _next_prefix({*known, *taken})
        log.execute("BEGIN")
        log.execute("UPDATE device SET is_here = 0")
        log.execute(
            "INSERT INTO device (id, prefix, next_number, next_op, is_here) VALUES (?, ?, 1, 1, 1)",
            (secrets.token_hex(8), prefix),
        )
        log.execute("INSERT OR IGNORE INTO pending_task (name) VALUES (?)", (WITNESS_TASK,))
        log.execute("COMMIT")
        return prefix, dict(log.execute("SELECT number, chain FROM issued").fetchall())


def _next_prefix(known: Iterable[str]) -> str:
    """The letter after the last one in use: A to Z, then AA to AZ, BA and so on."""
    last = max(known, key=lambda prefix: (len(prefix), prefix), default="")
    kept = last.rstrip("Z")
    following = f"{kept[:-1]}{chr(ord(kept[-1]) + 1)}" if kept else "A"
    return following + "A" * (len(last) - len(kept))


def _kept_aside(home: Path, at: datetime) -> Path | None:
    """A folder of its own that holds the log that was there, papers and all, to be opened as any other."""
    if not (home / FILE_NAME).exists():
        return None
    aside = home / f"before-restore-{at:%Y%m%d-%H%M%S}"
    if aside.exists():
        aside = aside.with_name(f"{aside.name}-{secrets.token_hex(2)}")
    for folder in (aside, aside / KEPT):
        make_folder(folder)
    for paper in (home / KEPT).glob("*.pdf"):
        _also_in(paper, aside / KEPT)
    for name in (FILE_NAME, KEY_NAME):
        if (home / name).exists():
            _also_in(home / name, aside)
    for ending in ("-wal", "-shm"):
        with suppress(FileNotFoundError):
            (home / f"{FILE_NAME}{ending}").rename(aside / f"{FILE_NAME}{ending}")
    with suppress(FileNotFoundError):
        (home / WITNESS).rename(aside / WITNESS)
    sync_folder(aside / KEPT)
    sync_folder(aside)
    return aside


def _also_in(path: Path, folder: Path) -> None:
    try:
        os.link(path, folder / path.name)
    except OSError:
        shutil.copy2(path, folder / path.name)


def _papers_set_right(home: Path, copy: Path) -> list[str]:
    """Have the papers of the restored log in their place, and no others; numbers of those that are nowhere."""
    kept, missing = home / KEPT, list[str]()
    make_folder(kept)
    with opened(copy) as source:
        with_papers = holds_papers(source)
        expected = dict(source.execute("SELECT number, pdf_sha FROM issued").fetchall())
        for paper in kept.glob("*.pdf"):
            if expected.get(paper.stem) != _hash_of(paper):
                paper.unlink()
        for number in sorted(number for number in expected if not (kept / f"{number}.pdf").exists()):
            pdf = _paper_in(source, number) if with_papers else b""
            if hashlib.sha256(pdf).digest() == expected[number]:
                write_part(kept / f"{number}.pdf", pdf)
            else:
                missing.append(number)
    sync_folder(kept)
    return missing


def _paper_in(source: Connection, number: str) -> bytes:
    rows = source.execute("SELECT pdf FROM paper WHERE number = ?", (number,)).fetchall()
    return rows[0][0] if rows else b""


def _hash_of(path: Path) -> bytes:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").digest()
