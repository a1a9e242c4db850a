"""A first word on the screen before anything large is loaded; what is typed meanwhile waits for the first screen."""

import os
import sys
import termios
from collections.abc import Mapping
from types import TracebackType
from typing import Any

from tui.configuration import variable_of
from tui.setting_keys import DRIVER, STOCK

_LOCAL, _INPUT = 3, 0
"""Places of the line's modes among a terminal's attributes."""
_SAYS = (
    "\x1b[H\x1b[2J \x1b[1mOhmfolio\x1b[m certificates and reports for electrical work"
    "\r\n\r\n Opening the job log. What you type now is kept."
)
_TAKES_BACK = "\x1b[m\x1b[H\x1b[2J"


class FirstPaint:
    """The terminal as it was found, and the way back to it. Leaving it with an error takes the first word away."""

    def __init__(self, *, second_screen: bool) -> None:
        self._second_screen = second_screen
        self.found: list[Any] = termios.tcgetattr(sys.stdin)
        """The attributes of the terminal, for whoever gives it back in the end."""

    def __enter__(self) -> "FirstPaint":
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if kind is not None:
            self.take_back()

    def take_back(self) -> None:
        """Give the terminal back as it was found."""
        self._write("\x1b[?1049l" if self._second_screen else _TAKES_BACK)
        termios.tcsetattr(sys.stdin, termios.TCSANOW, self.found)

    def begin(self) -> None:
        """Paint it; letters typed from now on are kept and not shown, and no key stops the line."""
        quiet = termios.tcgetattr(sys.stdin)
        quiet[_LOCAL] &= ~(termios.ECHO | termios.ICANON)
        quiet[_INPUT] &= ~(termios.IXON | termios.ICRNL)
        termios.tcsetattr(sys.stdin, termios.TCSANOW, quiet)
        self._write(f"\x1b[?1049h{_SAYS}" if self._second_screen else _SAYS)

    def _write(self, text: str) -> None:
        os.write(sys.stdout.fileno(), text.encode("ascii"))


def first_paint(environment: Mapping[str, str]) -> FirstPaint | None:
    """Paint on a terminal that can be painted on; None where there is nobody to see it, or the framework paints."""
    if not (sys.stdin.isatty() and sys.stdout.isatty()) or variable_of(DRIVER, environment) == STOCK:
        return None
    from tui.terminal.abilities import abilities_of, moves_cursor

    if not moves_cursor(environment):
        return None
    painted = FirstPaint(second_screen=abilities_of(environment).second_screen)
    painted.begin()
    return painted
