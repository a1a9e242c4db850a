"""Commands that screens begin: each in a process of its own, so that nobody waits for it, and one at a time."""

from __future__ import annotations

import time
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from textual.message import Message

if TYPE_CHECKING:
    from collections.abc import Mapping

    from textual.app import App
    from textual.timer import Timer

    from tui.services import RunningCommand, Services

_SAID_NOTHING = "It ended early, and said nothing. What was there is as it was."
NO, UNUSABLE = 1, 2
"""What a command ends with where its answer is no, and where nothing was done; as in `tui.commands.command`."""

OPEN_AGAIN = -1
"""Never an exit code of the program: another log stands in the place of this one, and the screens begin anew on it."""


@dataclass(frozen=True, slots=True)
class Task:
    """One command to be done."""

    title: str
    typed: tuple[str, ...]
    """As it might have been typed after `ohmfolio`."""
    given: str = ""
    """What it reads on standard input, such as a phrase."""


@dataclass(frozen=True, slots=True)
class TaskEnd:
    """What a command said in the end."""

    task: Task
    says: str
    """Its answer, or the sentence that says why there is none; lines as they stand."""
    code: int

    @property
    def in_short(self) -> str:
        """How it ended, in a few words."""
        words = {0: "done", NO: "done; the answer needs a look", UNUSABLE: "not done"}
        return f"{self.task.title}: {words.get(self.code, 'it ended early')}"


class TaskMoved(Message):
    """A command said something, or ended; it goes to the screen on top."""

    bubble = False


class Tasks:
    """The command that is being done, how far it is, and what the last one said."""

    LOOKS_EVERY: ClassVar[float] = 0.5
    """Seconds between looks at how far it is."""

    def __init__(self, app: App[Any], services: Services) -> None:
        self._app = app
        self._services = services
        self._begun = 0.0
        self._looks: Timer | None = None
        self.command: RunningCommand | None = None
        self.running: Task | None = None
        self.progress = ""
        """The last word of the one that is running."""
        self.last: TaskEnd | None = None
        self.typed: dict[str, Mapping[str, str]] = {}
        """What was typed into the questions of each, to be put forward again."""

    @property
    def seconds(self) -> int:
        """How long the one that is running has run."""
        return int(time.monotonic() - self._begun)

    def begin(self, task: Task) -> bool:
        """Begin a command; False while another is running."""
        if self.running:
            return False
        try:
            self.command = self._services.begin_command(task.typed, task.given)
        except OSError as trouble:
            self._end(TaskEnd(task, f"It cannot be started: {trouble.strerror or trouble}", UNUSABLE))
            return True
        self.running, self.progress, self._begun = task, "", time.monotonic()
        self._looks = self._app.set_interval(self.LOOKS_EVERY, self.look)
        return True

    def look(self) -> None:
        """See how far it is, or what it said in the end."""
        if not self.command or not self.running:
            return
        code = self.command.code
        said = [line.strip() for line in self.command.said.splitlines() if line.strip()]
        if code is None:
            self.progress = said[-1] if said else ""
            self._app.screen.post_message(TaskMoved())
            return
        # Where there is no answer, the last that was said is why.
        says = self.command.answer.rstrip("\n") or (said[-1] if said else _SAID_NOTHING)
        self._end(TaskEnd(self.running, says, code))

    def _end(self, end: TaskEnd) -> None:
        if self._looks:
            self._looks.stop()
        self.running = self.command = self._looks = None
        self.last = end
        self._app.screen.post_message(TaskMoved())
