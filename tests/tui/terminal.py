"""A real terminal for tests: the program in a pseudo-terminal, its screen kept by pyte, keys typed as bytes."""

import contextlib
import fcntl
import os
import pty
import select
import signal
import struct
import sys
import termios
import time
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from pathlib import Path
from types import TracebackType
from typing import Any, Self

import pyte

from tests import nursery
from tests.parting import PARTING, opened, run
from tests.tui.emulator import Emulator
from tui.__main__ import main

KEYS = {
    "enter": "\r",
    "tab": "\t",
    "shift+tab": "\x1b[Z",
    "escape": "\x1b",
    "up": "\x1b[A",
    "down": "\x1b[B",
    "right": "\x1b[C",
    "left": "\x1b[D",
    "home": "\x1b[H",
    "end": "\x1b[F",
    "pageup": "\x1b[5~",
    "pagedown": "\x1b[6~",
    "ctrl+home": "\x1b[1;5H",
    "ctrl+end": "\x1b[1;5F",
    "delete": "\x1b[3~",
    "backspace": "\x7f",
    "f1": "\x1bOP",
    "f2": "\x1bOQ",
    "f3": "\x1bOR",
    "f4": "\x1bOS",
    "f5": "\x1b[15~",
    "f6": "\x1b[17~",
    "f7": "\x1b[18~",
    "f8": "\x1b[19~",
    "f9": "\x1b[20~",
    "f10": "\x1b[21~",
    "f11": "\x1b[23~",
    "f12": "\x1b[24~",
}
KEYS |= {f"ctrl+{letter}": chr(ord(letter) - 96) for letter in "abcdefghijklmnopqrstuvwxyz"}

_PROGRAM = "import sys; from tui.__main__ import main; sys.exit(main())"
PATIENCE = 30.0
"""Seconds after which a screen that does not come is a failure, on a slow machine."""


class Terminal:
    """The installed command in a terminal of 80 by 24."""

    def __init__(
        self,
        *arguments: str,
        home: Path,
        columns: int = 80,
        lines: int = 24,
        program: str = "",
        fresh: bool = False,
        **environment: str,
    ) -> None:
        """Nobody is asked for letters, which are A. `fresh`: in an interpreter that has loaded nothing, where the start itself is looked at; so is any other `program`."""
        self.screen = Emulator(columns, lines)
        self.received = 0
        """Bytes the program has sent so far."""
        self.arrivals: list[tuple[float, int]] = []
        """When bytes came (seconds of the steady clock), and how many, since this was last emptied."""
        self.sent = bytearray()
        """All of them."""
        self.found: list[Any]
        """How the line was set before the program came."""
        self._stream = pyte.ByteStream(self.screen)
        kept = {name: os.environ[name] for name in ("PATH", "HOME", "LANG") if name in os.environ}
        usual = {"TERM": "xterm-256color", "OHMFOLIO_HOME": str(home), "OHMFOLIO_COPIES": "0", "OHMFOLIO_LETTERS": "A"}
        env = kept | usual | {"PYTHONPATH": str(Path.cwd())} | environment
        self._child: BaseProcess | None = None
        if program or fresh:
            self.pid, self._fd = pty.fork()
            if self.pid == 0:
                os.execve(sys.executable, [sys.executable, "-c", program or _PROGRAM, *arguments], env)
            self.found = self.line_modes
            self._tell_size()
        else:
            self._part([*arguments], env)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.kill()

    @property
    def text(self) -> str:
        """What stands on the screen, line by line."""
        return "\n".join(line.rstrip() for line in self.screen.display)

    @property
    def line(self) -> int:
        """The file descriptor of the line, for whoever waits for several at once."""
        return self._fd

    @property
    def line_modes(self) -> list[Any]:
        """How the line is set: echo, flow control and the like."""
        return termios.tcgetattr(self._fd)

    def until(self, *wanted: str, gone: str = "") -> str:
        """Read until every wanted text stands on the screen (and `gone` does not); the screen's text."""
        deadline = time.monotonic() + PATIENCE
        while not (all(each in self.text for each in wanted) and (not gone or gone not in self.text)):
            left = deadline - time.monotonic()
            if left <= 0 or not self._read(left):
                raise AssertionError(f"{wanted!r} did not come on the screen:\n{self.text}")
        return self.text

    def press(self, *keys: str) -> Self:
        """Press named keys one after the other."""
        for key in keys:
            os.write(self._fd, KEYS[key].encode())
            self._settle()
        return self

    def type(self, text: str) -> Self:
        """Type a text letter by letter, as one person would."""
        os.write(self._fd, text.encode())
        self._settle()
        return self

    def send(self, keys: str | bytes) -> Self:
        """Type without looking: the program takes the keys in its own time."""
        os.write(self._fd, keys.encode() if isinstance(keys, str) else keys)
        self._read(0)
        return self

    def send_torn(self, keys: str) -> Self:
        """Type, with the line stalling after every byte."""
        for byte in keys.encode():
            self.send(bytes([byte]))
            self._settle()
        return self

    def listen(self, seconds: float = 0.12) -> bool:
        """Take in what the program sends next; whether there was anything."""
        return self._read(seconds)

    def fall_silent(self, seconds: float = 0.4) -> None:
        """Take in all the program has to say, until it has been quiet for longer than panel and coach wait."""
        while self._read(seconds):
            pass

    def resize(self, columns: int, lines: int) -> Self:
        """Give the window another size."""
        self.screen.resize(lines, columns)
        self._tell_size()
        return self

    def smear(self, noise: str) -> Self:
        """Have another program write over the screen."""
        self._stream.feed(noise.encode())
        return self

    def _part(self, typed: list[str], environment: dict[str, str]) -> None:
        """Have a process part that has the program loaded, with this terminal as its own."""
        self._fd, line = pty.openpty()
        self.found = self.line_modes
        self._tell_size()
        blocked = signal.pthread_sigmask(signal.SIG_BLOCK, ())
        nursery.begin(PARTING)
        here, there = PARTING.Pipe()
        self._child = PARTING.Process(
            target=_play, args=(typed, environment, str(Path.cwd()), os.ttyname(line), blocked, there)
        )
        self._child.start()
        there.close()
        here.recv()
        os.close(line)
        self.pid = self._child.pid or 0

    def _tell_size(self) -> None:
        fcntl.ioctl(self._fd, termios.TIOCSWINSZ, struct.pack("HHHH", self.screen.lines, self.screen.columns, 0, 0))

    def _settle(self) -> None:
        """Take in what the program answers, until it has been quiet for a moment."""
        while self._read(0.12):
            pass

    def _read(self, seconds: float) -> bool:
        ready, _, _ = select.select([self._fd], [], [], seconds)
        if not ready:
            return False
        try:
            received = os.read(self._fd, 65536)
        except OSError:
            return False
        self.arrivals.append((time.monotonic(), len(received)))
        self.received += len(received)
        self.sent += received
        self._stream.feed(received)
        return bool(received)

    def hang_up(self) -> None:
        """Drop the line, as when a phone loses its signal."""
        os.close(self._fd)
        self._fd = -1

    def kill(self) -> None:
        """Kill the program outright."""
        if self.pid:
            with contextlib.suppress(ProcessLookupError):
                os.kill(self.pid, signal.SIGKILL)
            self.ended()
        if self._fd >= 0:
            os.close(self._fd)
            self._fd = -1

    def ended(self) -> int:
        """Wait for the end of the program; its exit code (negative for a signal)."""
        if self._fd >= 0:
            while self._read(PATIENCE):
                pass
        if self._child:
            self._child.join()
            self.pid = 0
            return self._child.exitcode or 0
        _, status = os.waitpid(self.pid, 0)
        self.pid = 0
        return os.waitstatus_to_exitcode(status)


def _play(
    typed: list[str], environment: dict[str, str], folder: str, line: str, blocked: set[int], ready: Connection
) -> None:
    """The program on a terminal that is the first and only one of its session."""
    os.setsid()
    terminal = opened(line, os.O_RDWR)
    ready.send(None)
    ready.close()
    signal.pthread_sigmask(signal.SIG_SETMASK, blocked)
    run(main, typed, environment, folder, (terminal, terminal, terminal))
