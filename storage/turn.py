"""Turns at a log: one program at a time writes, opens or closes it, kept apart by a lock on a file beside it.

The system queues those who wait, so nobody is overtaken for ever. Whoever has waited long enough is told so and goes on
without the turn; the place in the queue that was left is given back as soon as it comes up.
"""

import fcntl
import os
import threading
from collections.abc import Callable, Generator
from contextlib import contextmanager, suppress
from pathlib import Path

from domain.log.job_log import BusyError
from storage.access import make_file

LOCK_NAME = "ohmfolio.lock"
PATIENCE = 5.0
"""Seconds."""
AT_ONCE = 0.5
"""Seconds that nobody need be told of; whoever only reads waits no longer."""
_WAITING = "Another program is at the job log; waiting for it."


class Turn:
    """The lock of one log, as one program holds it. One thread at a time asks for it."""

    def __init__(self, home: Path, waiting: Callable[[str], None] | None = None) -> None:
        """`waiting` is told, in a sentence, when somebody else has the turn. OSError where the lock cannot be made."""
        self._home = home
        self._lock = _lock_in(home)
        self._waiting = waiting
        self._queued: _Place | None = None

    @contextmanager
    def taken(self, patience: float | None = None) -> Generator[None]:
        """Hold the turn; BusyError where somebody else keeps it for too long: for `patience` seconds, of which nobody is told."""
        self._take(patience)
        try:
            yield
        finally:
            fcntl.flock(self._lock, fcntl.LOCK_UN)

    def close(self) -> None:
        """Let go of the lock file."""
        os.close(self._lock)

    def _take(self, patience: float | None) -> None:
        place = self._queued
        if place is None or not place.is_wanted_again():
            with suppress(BlockingIOError):
                fcntl.flock(self._lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
                self._queued = None
                return
            place = self._queued = _Place(self._lock)
        quiet = min(PATIENCE / 2, AT_ONCE if patience is None else patience)
        if not place.comes_up(quiet) and (patience is not None or not self._comes_up_later(place, PATIENCE - quiet)):
            place.leave(self._lock)
            raise BusyError(
                f"Another program holds the job log, and has not let go for {PATIENCE:.0f} seconds ({self._home}). "
                "This was not saved; close that program, or wait for it, and try again."
            )
        self._queued = None

    def _comes_up_later(self, place: "_Place", seconds: float) -> bool:
        if self._waiting:
            self._waiting(_WAITING)
        return place.comes_up(seconds)


class _Place:
    """A place in the system's queue, waited for by a thread of its own."""

    def __init__(self, lock: int) -> None:
        self._lock = os.dup(lock)
        self._guard = threading.Condition()
        self._is_wanted, self._is_over, self._has_come_up = True, False, False
        threading.Thread(target=self._wait, daemon=True).start()

    def comes_up(self, seconds: float) -> bool:
        """Wait so long for it."""
        with self._guard:
            return self._guard.wait_for(lambda: self._has_come_up, seconds)

    def leave(self, lock: int) -> None:
        """Nobody waits here any more; when it comes up, the next in the queue has the turn."""
        with self._guard:
            self._is_wanted = False
            if self._has_come_up:
                self._is_over = True
                fcntl.flock(lock, fcntl.LOCK_UN)

    def is_wanted_again(self) -> bool:
        """Wait here again; False where it came up meanwhile."""
        with self._guard:
            self._is_wanted = not self._is_over
            return self._is_wanted

    def _wait(self) -> None:
        fcntl.flock(self._lock, fcntl.LOCK_EX)
        with self._guard:
            self._has_come_up, self._is_over = self._is_wanted, not self._is_wanted
            if self._is_over:
                fcntl.flock(self._lock, fcntl.LOCK_UN)
            os.close(self._lock)
            self._guard.notify()


def _lock_in(home: Path) -> int:
    path = home / LOCK_NAME
    try:
        return os.open(path, os.O_RDWR | os.O_CLOEXEC)
    except FileNotFoundError:
        with suppress(FileExistsError):
            return make_file(path)
    # Somebody else made it meanwhile.
    return os.open(path, os.O_RDWR | os.O_CLOEXEC)
