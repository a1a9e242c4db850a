"""Commands that screens begin: each in a process of its own, so that nobody waits for it, and one at a time."""

from __future__ import annotations

import time
from collections.abc import Iterable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from textual.message import Message

if TYPE_CHECKING:
    from textual.app import App

    from tui.services import Services

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

    def __init__(self, app: App[Any], desk: Services) -> None:
        self._app = app
        self._desk = desk
        self._begun = 0.0
        self.running: Task | None = None
        self.progress = ""
        """The last word of the one that is running."""
        self.last: TaskEnd | None = None

    @property
    def seconds(self) -> int:
        """How long the one that is running has run."""
        return int(time.monotonic() - self._begun)

    def begin(self, task: Task) -> bool:
        """Begin a command; False while another is running."""
        if self.running:
            return False
        self.running, self.progress, self._begun = task, "", time.monotonic()
        self._app.run_worker(lambda: self._work(task), thread=True, group="tasks")
        return True

    def _work(self, task: Task) -> None:
        """In a thread: it touches no widget, and speaks by way of the app's messages."""
        try:
            said, answer, code = self._done(task)
        except OSError as trouble:
            said, answer, code = [f"It cannot be started: {trouble.strerror or trouble}"], "", UNUSABLE
        # Where there is no answer, the last that was said is why.
        says = answer.rstrip("\n") or next(
            reversed(said), "It ended early, and said nothing. What was there is as it was."
        )
        self._app.call_later(self._ended, TaskEnd(task, says, code))

    def _done(self, task: Task) -> tuple[list[str], str, int]:
        said: list[str] = []
        with self._desk.begin_command(task.typed) as process, ThreadPoolExecutor(1) as reading:
            assert process.stdin
            assert process.stdout
            assert process.stderr
            answer = reading.submit(process.stdout.read)
            try:
                process.stdin.write(task.given.encode())
                process.stdin.close()
            except BrokenPipeError:
                pass
            for line in _lines(process.stderr):
                said.append(line)
                self._app.call_later(self._moved, line)
            return said, answer.result().decode(errors="replace"), process.wait()

    def _moved(self, progress: str) -> None:
        self.progress = progress
        self._app.screen.post_message(TaskMoved())

    def _ended(self, end: TaskEnd) -> None:
        self.running, self.last = None, end
        self._app.screen.post_message(TaskMoved())


def _lines(stream: Iterable[bytes]) -> Iterable[str]:
    return (text for line in stream if (text := line.decode(errors="replace").strip()))
