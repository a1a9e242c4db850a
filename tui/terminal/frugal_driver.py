"""The driver that puts the frugal terminal under the framework: its frames go out as differences, its keys come in whole.

Kept by hand: no library sends a terminal only the cells that changed, in the few bytes a poor line bears.
"""

import os
import select
import time
from collections.abc import Mapping
from typing import Any, ClassVar

from textual import events
from textual._ansi_sequences import ANSI_SEQUENCES_KEYS, IGNORE_SEQUENCE
from textual._xterm_parser import XTermParser
from textual.app import App
from textual.drivers.linux_driver import LinuxDriver

from tui.terminal.abilities import Abilities, abilities_of
from tui.terminal.double_buffer import Canvas
from tui.terminal.key_reader import KeyReader, Pasted, TypedText
from tui.terminal.output_thread import Outlet

_NOT_ASKED_FOR = frozenset(
    f"\x1b[?{mode}" for mode in ("1000h", "1002h", "1003h", "1006h", "1015h", "1016h", "1004h", "1004l", "25l")
) | {"\x1b[?2026$p", "\x1b[?2048$p", "\x1b[>25u", "\x1b[<u"}
"""Mouse and focus reports, other ways of sending keys, and questions to the terminal: each one a risk on a poor line."""
_POINTER = "\x1b]22;"
"""Begins a wish for the shape of a mouse pointer; early terminals print it."""
_LEAVE_FIRST_SCREEN, _BACK_TO_FIRST_SCREEN = "\x1b[?1049h", "\x1b[?1049l"
_LOOK_AGAIN = 0.1
"""Seconds between looks at whether reading is to end."""
_SETTLED = 0.25
"""Seconds after a change of size when everything is painted once more if the framework has not done so."""
_END_PATIENCE = 2.0
"""Seconds a line may take for the last of the output before it is given up."""


class FrugalDriver(LinuxDriver):
    """Keeps what the terminal shows beside what the program wants. Never turns the mouse on."""

    ABILITIES: ClassVar[Abilities] = Abilities()
    REPAINTS: ClassVar[str] = ""
    """The key that has everything painted anew."""
    FOUND: ClassVar[list[Any] | None] = None
    """The attributes the terminal had, where somebody changed them before the driver began."""

    def __init__(
        self, app: App[Any], *, debug: bool = False, mouse: bool = False, size: tuple[int, int] | None = None
    ) -> None:
        super().__init__(app, debug=debug, mouse=mouse, size=size)  # pyright: ignore[reportUnknownMemberType]
        self._outlet: Outlet | None = None
        self._canvas = Canvas(*self._get_terminal_size(), self.ABILITIES)
        self._is_painting = self._has_painted = False
        self._parser = XTermParser()

    @property
    def can_suspend(self) -> bool:
        """There is a shell to come back from; without one a program that stops is stuck."""
        return os.getsid(0) == os.getsid(os.getppid()) and os.getpgrp() != os.getpgid(os.getppid())

    def write(self, data: str) -> None:
        """Take in a frame, or hand a sequence on to the terminal."""
        if data in _NOT_ASKED_FOR or data.startswith(_POINTER):
            return
        if not self.ABILITIES.second_screen and data in {_LEAVE_FIRST_SCREEN, _BACK_TO_FIRST_SCREEN}:
            data = "\x1b[m\x1b[H\x1b[2J"
        self._canvas.write(data)

    def flush(self) -> None:
        """Have the last frame sent."""
        if self._is_painting:
            self._canvas.complete()
        if self._outlet:
            self._outlet.wake()

    def repaint(self) -> None:
        """Send the whole screen anew."""
        self._canvas.repaint()
        self.flush()

    def start_application_mode(self) -> None:
        """Take the terminal over, for the first time or again."""
        again = self._has_painted
        if self._file:
            self._outlet = Outlet(self._file.fileno(), self._canvas.taken, self._file.encoding)
            self._outlet.start()
        super().start_application_mode()
        self.attrs_before = self.FOUND or self.attrs_before
        self._is_painting = self._has_painted = True
        if again:
            self.repaint()

    def stop_application_mode(self) -> None:
        """Give the terminal back as it was."""
        self._is_painting = False
        self._canvas.write("\x1b[?25h")
        super().stop_application_mode()

    def close(self) -> None:
        """Send what is left."""
        outlet, self._outlet = self._outlet, None
        if outlet:
            outlet.end(_END_PATIENCE)
        super().close()

    def run_input_thread(self) -> None:
        """Hand keys and pastes on until told to end, or until the line is lost."""
        reader = KeyReader(_is_key)
        while not self.exit_event.is_set():
            wait = reader.patience(time.monotonic())
            ready, _, _ = select.select([self.fileno], [], [], _LOOK_AGAIN if wait is None else min(wait, _LOOK_AGAIN))
            received = _read(self.fileno) if ready else b""
            if ready and not received:
                return
            now = time.monotonic()
            for part in reader.feed(received, now) if received else reader.late(now):
                self._hand_on(part)

    def _hand_on(self, part: TypedText | Pasted) -> None:
        if isinstance(part, Pasted):
            self.process_message(events.Paste(part.text))
            return
        for key in self._parser._sequence_to_key_events(part.sequence):  # pyright: ignore[reportPrivateUsage]
            if key.key == self.REPAINTS:
                self._loop.call_soon_threadsafe(self.repaint)
            self.process_message(key)

    def _get_terminal_size(self) -> tuple[int, int]:
        size = super()._get_terminal_size()
        if self._outlet:
            self._loop.call_soon_threadsafe(self._resized, size)
        return size

    def _resized(self, size: tuple[int, int]) -> None:
        self._canvas.resize(*size)
        self._loop.call_later(_SETTLED, self.flush)

    def _sigtstp_application(self, *_: object) -> None:
        stop = super()._sigtstp_application  # pyright: ignore[reportUnknownMemberType, reportUnknownVariableType]
        self._loop.call_soon_threadsafe(stop)  # pyright: ignore[reportUnknownArgumentType]

    def _sigcont_application(self, *_: object) -> None:
        if self._outlet is None:
            super()._sigcont_application()  # pyright: ignore[reportUnknownMemberType]
        else:
            # Stopped from outside, with no warning: the shell may have had the terminal meanwhile.
            self._loop.call_soon_threadsafe(self._take_over_again)

    def _take_over_again(self) -> None:
        if self._outlet:
            self.suspend_application_mode()
            self.resume_application_mode()


def driver_for(
    environment: Mapping[str, str], glyphs: str = "auto", found: list[Any] | None = None, *, repaints: str = ""
) -> type[FrugalDriver]:
    """The driver for the terminal that an environment names, which gives it back as it was found.

    `repaints` names the key that has everything painted anew.
    """

    class Fitted(FrugalDriver):
        ABILITIES: ClassVar[Abilities] = abilities_of(environment, glyphs)
        FOUND: ClassVar[list[Any] | None] = found
        REPAINTS: ClassVar[str] = repaints

    return Fitted


def _is_key(sequence: str) -> bool:
    return ANSI_SEQUENCES_KEYS.get(sequence, IGNORE_SEQUENCE) is not IGNORE_SEQUENCE


def _read(fileno: int) -> bytes:
    """What has been received; nothing when the line is lost."""
    try:
        return os.read(fileno, 4096)
    except OSError:
        return b""
