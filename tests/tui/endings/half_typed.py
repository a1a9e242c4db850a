"""Programs that end in the middle of an entry: what the log holds then, and what stands open when somebody comes back."""

import getpass
import os
import signal
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from itertools import cycle
from pathlib import Path

from domain.job.job import Job
from domain.place import Place
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, complete_certificate
from tests.tui.terminal import Terminal
from tui.job_page import step_of
from tui.screens.position_note import note_of

WHO = getpass.getuser()
OPEN_AGAIN = "Half-typed when the program ended"


class End(StrEnum):
    """How a program ends."""

    HUNG_UP = "line dropped"
    KILLED = "killed outright"
    TOLD = "told to end"
    AT_ONCE = "killed in the middle of its work"
    """The keys are on their way; how many of them were taken in is not known."""


@dataclass(frozen=True, slots=True)
class Ending:
    """One end in the middle of one entry."""

    place: Place
    typed: str
    end: End
    keeps: bool
    """Whoever comes back presses Enter, not Escape."""


def entries(job: Job) -> Iterator[tuple[Place, str]]:
    """Boxes of every kind, and what somebody was going to type: a name, running text, a choice, figures, a tick."""
    board = job.boards[0]
    circuit = Place(section="boards", board=board.id, circuit=board.circuits[0].id)
    yield circuit.model_copy(update={"box": "zs"}), "0.25"
    yield Place(section="client", box="name"), "Marigold Finch"
    yield circuit.model_copy(update={"box": "r1_r2"}), ">299"
    yield Place(section="work", box="description"), "New circuit for the kiln"
    yield Place(section="supply", box="system"), "TN-S"
    yield circuit.model_copy(update={"box": "description"}), "Landing and loft"
    yield Place(section="supply", box="ze"), "0.177"
    yield circuit.model_copy(update={"box": "live_csa"}), "1.5"


def endings(job: Job) -> Iterator[Ending]:
    """An end at every key of every entry, in every way, over and over; every fifth is kept by whoever comes back."""
    ends, keeps = cycle(End), cycle((False, False, False, False, True))
    for place, text in cycle(entries(job)):
        for count in range(1, len(text) + 1):
            yield Ending(place, text[:count], next(ends), next(keeps))


class Desk:
    """A log with one job, come back to again and again."""

    def __init__(self, home: Path) -> None:
        self.home = home
        with self._log() as log:
            self.number = log.create(complete_certificate(sign=False), who=WHO, at=AT).number
        self._terminal: Terminal | None = None
        self._there: Place | None = None
        """The box its cursor is on, where that is known."""

    def _log(self) -> "_Closing":
        return _Closing(SqliteJobLog.open(self.home))

    @property
    def job(self) -> Job:
        with self._log() as log:
            job = log.load(self.number)
        assert job is not None
        return job

    @property
    def edits(self) -> int:
        """Lines of the trail."""
        with self._log() as log:
            return len(log.trail(self.number))

    def ends(self, ending: Ending) -> None:
        """Type, end, come back: the old value stands, the box is open with what was typed, and one key settles it."""
        with self._log() as log:
            log.save_position(self.number, note_of(step_of(ending.place), ending.place), who=WHO)
        before, edits = self.job, self.edits
        terminal = self._at(ending.place)
        terminal.send(ending.typed)
        _end(terminal, ending.end)
        assert self.job == before, "a half-typed text stands as a value"
        assert self.edits == edits
        terminal = self._opened()
        if ending.end is not End.AT_ONCE:
            terminal.until(OPEN_AGAIN, ending.typed.rstrip())
        elif OPEN_AGAIN not in terminal.text:
            return
        terminal.press("enter" if ending.keeps else "escape")
        terminal.until("F3 Details", gone=OPEN_AGAIN)
        if ending.end is not End.AT_ONCE:
            assert (self.job != before) is ending.keeps
            assert self.edits == edits + ending.keeps
        self._there = None if ending.keeps else ending.place

    def leave(self) -> None:
        """End the program that was come back to last."""
        if self._terminal is not None:
            self._terminal.kill()
        self._terminal, self._there = None, None

    def _at(self, place: Place) -> Terminal:
        """The program with its cursor on a box; the one that was come back to, where it stands there."""
        terminal, there, self._there = self._terminal, self._there, None
        return terminal if terminal and there == place else self._opened()

    def _opened(self) -> Terminal:
        self.leave()
        self._terminal = Terminal(home=self.home)
        self._terminal.until("or go on with a job", self.number)
        self._terminal.press("enter").until("F3 Details")
        return self._terminal


class _Closing:
    def __init__(self, log: SqliteJobLog) -> None:
        self._log = log

    def __enter__(self) -> SqliteJobLog:
        return self._log

    def __exit__(self, *_: object) -> None:
        self._log.close()


def _end(terminal: Terminal, end: End) -> None:
    if end is End.AT_ONCE:
        terminal.kill()
        return
    while terminal.listen():
        pass
    if end is End.KILLED:
        terminal.kill()
    elif end is End.HUNG_UP:
        terminal.hang_up()
        terminal.ended()
    else:
        os.kill(terminal.pid, signal.SIGTERM)
        terminal.ended()
