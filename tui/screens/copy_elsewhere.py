"""A copy of the whole job in a file of its own, where the log is gone from under the hands; `bring-in` takes it into any log."""

from collections.abc import Callable
from pathlib import Path
from typing import Protocol

from textual.screen import ModalScreen

from domain.job.exchange import job_to_json
from domain.job.job import Job
from tui.screens.dialogs import LineScreen
from tui.services import Services


class Unsaved(Protocol):
    """What is to be copied."""

    @property
    def desk(self) -> Services:
        """The world outside."""
        ...

    @property
    def trouble(self) -> str:
        """Why the log cannot take it."""
        ...

    def as_typed(self) -> Job | None:
        """The job with all that the log could not take."""
        ...


class Asks(Protocol):
    """Who is asked and told."""

    def ask(self, question: ModalScreen[str | None], then: Callable[[str], object]) -> None:
        """Put a question."""
        ...

    def say(self, sentence: str, *, bad: bool = False) -> None:
        """Tell the person something."""
        ...


def offer_copy(unsaved: Unsaved, asks: Asks) -> None:
    """Ask where a copy of the job is to be saved, and save it there."""
    job = unsaved.as_typed()
    if job is None:
        return

    def save(typed: str) -> None:
        path = Path(typed).expanduser()
        try:
            unsaved.desk.write_new(path, job_to_json(job).encode())
        except OSError as error:
            cause = "it exists already" if isinstance(error, FileExistsError) else error.strerror or str(error)
            asks.say(f"No copy in {path}: {cause}", bad=True)
        else:
            asks.say(f"A copy is in {path}; ohmfolio bring-in takes it into a log. The entry stays open here")

    name = f"{job.number or 'job'}-{unsaved.desk.now():%Y-%m-%d-%H%M%S}.json"
    about = (
        f"{unsaved.trouble}\n\nThe copy holds the whole job, with what could not be saved; `ohmfolio bring-in` takes it into any "
        "log. Esc goes back to the entry, which stays open."
    )
    asks.ask(LineScreen("Save a copy of the job where?", str(Path.home() / name), about), save)
