"""Keys pressed in a real terminal, each with what the program sent because of it and when."""

import time
from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import StrEnum
from pathlib import Path

from tests.tui.meter.line import Sent
from tests.tui.terminal import KEYS, Terminal

_LATEST = 5.0
"""Seconds until a key that takes the program longest is answered, on a slow computer."""
_UNANSWERED = 0.15
"""Seconds without a byte after which a key is taken to have changed nothing, once the program has nothing to do."""
_RESTED = 0.4
"""Seconds hands rest on a box that is looked at: longer than panel and coach wait."""


class Kind(StrEnum):
    """What a key was pressed for."""

    LETTER = "typed character"
    NEXT = "next box"
    PART = "part of the page"
    CELL = "cursor move in the schedule"
    KEPT = "entry kept, with its checks"
    ELSE = "question, mark, step"


@dataclass(frozen=True, slots=True)
class Stroke:
    """A key as it is meant."""

    key: str
    kind: Kind
    stage: str = ""
    fills: int = 0
    """Boxes that are filled with this key."""
    rests: bool = False
    """The hands rest after it, and panel and coach speak."""


@dataclass(frozen=True, slots=True)
class Press:
    """A key as it was pressed."""

    stroke: Stroke
    answer: tuple[Sent, ...]
    """What the program sent, with seconds since the key."""

    @property
    def bytes(self) -> int:
        return sum(sent.count for sent in self.answer)

    @property
    def painted(self) -> float:
        """Seconds until the last byte left the program."""
        return self.answer[-1].at if self.answer else 0.0


@dataclass
class Hands:
    """Hands on the keys of a terminal, which look up after each key."""

    terminal: Terminal
    slow: bool = False
    """Rest on every box, as somebody who reads what the panel says."""
    presses: list[Press] = field(default_factory=list)

    def press(self, strokes: Iterable[Stroke]) -> list[Press]:
        """Press keys one after the other, each when the one before is answered."""
        pressed = [self._press(stroke) for stroke in strokes]
        self.presses += pressed
        return pressed

    def _press(self, stroke: Stroke) -> Press:
        terminal = self.terminal
        terminal.arrivals.clear()
        at = time.monotonic()
        terminal.send(stroke.key if len(stroke.key) == 1 else KEYS[stroke.key])
        self._look(at)
        if self.slow or stroke.rests:
            while terminal.listen(_RESTED):
                pass
        return Press(stroke, tuple(Sent(came - at, count) for came, count in terminal.arrivals))

    def _look(self, pressed: float) -> None:
        """Take in the answer, until the program has nothing more to do."""
        terminal = self.terminal
        while not terminal.arrivals and time.monotonic() < pressed + _LATEST:
            if not terminal.listen(_UNANSWERED) and is_idle(terminal.pid):
                return
        while terminal.listen(_MOMENT) or not is_idle(terminal.pid):
            pass


_TELLS = Path("/proc/self/task").exists()
_MOMENT = 0.001 if _TELLS else 0.06
"""Seconds of silence; where the system does not tell what a program is doing, as long as a frame may be due."""


def is_idle(pid: int) -> bool:
    """Every thread of a program waits for something."""
    return not _TELLS or all(_state(thread) == "S" for thread in Path(f"/proc/{pid}/task").iterdir())


def _state(thread: Path) -> str:
    try:
        return (thread / "stat").read_text().rpartition(")")[2].split()[0]
    except OSError:
        return "S"
