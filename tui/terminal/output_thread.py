"""Sends to the terminal from a thread of its own: a line that stalls holds up nothing but itself."""

import os
from collections.abc import Callable
from threading import Event, Thread


class Outlet(Thread):
    """Asks for what is to be sent each time it is woken. What comes while it sends goes out together afterwards."""

    def __init__(self, fileno: int, take: Callable[[], str], encoding: str) -> None:
        super().__init__(daemon=True, name="terminal-output")
        self._fileno = fileno
        self._take = take
        self._encoding = encoding
        self._awake = Event()
        self._is_ending = False

    def wake(self) -> None:
        """There may be something to send."""
        self._awake.set()

    def end(self, patience: float) -> None:
        """Send what is left and end, unless the line takes longer than this many seconds."""
        self._is_ending = True
        self._awake.set()
        self.join(patience)

    def run(self) -> None:
        """Send until told to end, or until the line is lost."""
        while True:
            self._awake.wait()
            self._awake.clear()
            is_ending = self._is_ending
            if not self._has_sent(self._take().encode(self._encoding, "replace")) or is_ending:
                return

    def _has_sent(self, left: bytes) -> bool:
        try:
            while left:
                left = left[os.write(self._fileno, left) :]
        except OSError:
            return False
        return True
