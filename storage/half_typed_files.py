"""Entries that are still being typed, each in a small file of the program that has it open.

A file and not a row of the log: it is written on every key, which costs microseconds and waits for nobody, and what a
program has written outlives it. A program holds its file locked while it runs, so an unlocked one was left behind.
"""

import fcntl
import os
import secrets
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

from pydantic import ValidationError

from domain.log.half_typed import HalfTyped
from storage.access import make_folder

HALF_TYPED = "half-typed"


class HalfTypedFiles:
    """Fulfils `domain.log.half_typed.HalfTypedEntries` in a folder of the log."""

    def __init__(self, home: Path, who: str) -> None:
        self._folder = home / HALF_TYPED
        self._begins = sha256(who.encode()).hexdigest()[:16]
        """What the files of a person begin with; a name may hold what no file name can."""
        self._own: tuple[Path, int] | None = None
        self._size = 0

    def keep(self, entry: HalfTyped) -> None:
        """One write, so that a killed program leaves the entry before or this one."""
        line = entry.model_dump_json(exclude_defaults=True).encode() + b"\n"
        with suppress(OSError):
            self._own = self._own or self._made()
            descriptor = self._own[1]
            os.pwrite(descriptor, line, 0)
            if len(line) < self._size:
                os.ftruncate(descriptor, len(line))
            self._size = len(line)

    def settle(self) -> None:
        """Down to the disk."""
        if self._own and self._size:
            with suppress(OSError):
                os.fsync(self._own[1])

    def finish(self) -> None:
        """Empty the file."""
        if self._own and self._size:
            with suppress(OSError):
                os.ftruncate(self._own[1], 0)
            self._size = 0

    def left(self) -> tuple[HalfTyped, ...]:
        """Entries in files nobody holds; a file that holds none is cleared away."""
        return tuple(entry for _, entry in self._left())

    def forget(self, entry: HalfTyped) -> None:
        """Remove its file."""
        for path, kept in self._left():
            if kept == entry:
                path.unlink(missing_ok=True)

    def close(self) -> None:
        """Let go of the file; one with nothing in it goes."""
        own, self._own = self._own, None
        if own:
            with suppress(OSError):
                if not self._size:
                    own[0].unlink(missing_ok=True)
                os.close(own[1])

    def _left(self) -> list[tuple[Path, HalfTyped]]:
        with suppress(OSError):
            paths = sorted(self._folder.glob(f"{self._begins}-*"), key=lambda path: path.stat().st_mtime, reverse=True)
            read = ((path, _entry_in(path)) for path in paths if self._own is None or path != self._own[0])
            return [(path, entry) for path, entry in read if entry]
        return []

    def _made(self) -> tuple[Path, int]:
        make_folder(self._folder)
        path = self._folder / f"{self._begins}-{secrets.token_hex(8)}"
        # Its owner's alone, in a shared log too.
        descriptor = os.open(path, os.O_RDWR | os.O_CREAT | os.O_EXCL | os.O_CLOEXEC, 0o600)
        fcntl.flock(descriptor, fcntl.LOCK_EX)
        return path, descriptor


def _entry_in(path: Path) -> HalfTyped | None:
    """The entry of a file that nobody holds; None where a program still has it open, or there is nothing in it."""
    with suppress(OSError), path.open("rb") as file:
        fcntl.flock(file, fcntl.LOCK_SH | fcntl.LOCK_NB)
        try:
            # What comes after the first line is what a killed program had not cut off yet.
            return HalfTyped.model_validate_json(file.readline())
        except ValidationError:
            path.unlink(missing_ok=True)
    return None
