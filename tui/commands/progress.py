"""How far a long command is, on standard error: said from the second second on, and no more often than people read."""

import sys
import time
from collections.abc import Callable

from tui.commands.command import aside

_EVERY = 2.0


class Progress:
    """Tells how many of how many; on a terminal always on the one line."""

    def __init__(
        self, what: str, *, clock: Callable[[], float] = time.monotonic, say: Callable[[str], None] | None = None
    ) -> None:
        self._what = what
        self._clock = clock
        self._say = say or _said
        self._told_at = clock()
        self._told = False

    def __call__(self, done: int, of: int = 0) -> None:
        """So many are done; of how many, where that is known."""
        if self._clock() - self._told_at >= _EVERY:
            self._told_at = self._clock()
            self._told = True
            self._say(f"{self._what}: {done:,}{f' of {of:,}' if of else ''}")

    def end(self) -> None:
        """Leave the line, where one was written."""
        if self._told and self._say is _said and sys.stderr.isatty():
            print(file=sys.stderr)


def _said(sentence: str) -> None:
    if sys.stderr.isatty():
        print(f"\r{sentence}", end="", file=sys.stderr, flush=True)
    else:
        aside(sentence)
