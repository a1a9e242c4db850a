"""Two pictures of one terminal, what the program wants and what it shows, and what must be sent between them."""

from threading import RLock

from tui.terminal.abilities import Abilities
from tui.terminal.cursor_writer import CursorWriter
from tui.terminal.difference import place_cursor, send_difference
from tui.terminal.frames import FrameReader
from tui.terminal.screen_buffer import Picture

_LARGE = 400
"""Letters from which on a change is worth being shown all at once."""


class Canvas:
    """Takes frames as they are written, and gives the shortest way to show the last of them."""

    def __init__(self, width: int, height: int, abilities: Abilities) -> None:
        self._abilities = abilities
        self._reader = FrameReader(abilities)
        self._wanted = Picture(width, height)
        self._shown: Picture | None = None
        """None when it is not known what the terminal shows."""
        self._pen = CursorWriter(abilities)
        self._waiting: list[str] = []
        self._is_due = False
        self._lock = RLock()

    @property
    def size(self) -> tuple[int, int]:
        """Columns and rows."""
        return self._wanted.width, self._wanted.height

    def write(self, written: str) -> None:
        """Take in a frame, or a sequence for the terminal itself."""
        with self._lock:
            before = self._is_due
            asides = self._reader.read(written, self._wanted)
            if asides and before:
                self._send_due()
            for aside in asides:
                self._waiting.append(aside.sequence)
                if aside.disturbs:
                    self._forget()

    def complete(self) -> None:
        """Say that what was written is to be seen."""
        with self._lock:
            self._is_due = True

    def resize(self, width: int, height: int) -> None:
        """Take on another size. What a terminal then shows is its own affair."""
        with self._lock:
            if (width, height) != self.size:
                self._wanted = self._wanted.resized(width, height)
            self._forget()

    def repaint(self) -> None:
        """Have everything sent anew."""
        with self._lock:
            self._forget()
            self._is_due = True

    def taken(self) -> str:
        """What is to be sent now, in one piece."""
        with self._lock:
            if self._is_due:
                self._send_due()
            waiting, self._waiting = "".join(self._waiting), []
            return waiting

    def _forget(self) -> None:
        self._shown = None
        self._pen.forget()

    def _send_due(self) -> None:
        self._is_due = False
        pen, wanted = self._pen, self._wanted
        if self._shown is None:
            self._shown = Picture(*self.size)
            pen.clear()
        send_difference(pen, self._shown, wanted)
        place_cursor(pen, wanted)
        sent = pen.taken()
        if self._abilities.holds_frames and len(sent) > _LARGE:
            sent = f"\x1b[?2026h{sent}\x1b[?2026l"
        if sent:
            self._waiting.append(sent)
