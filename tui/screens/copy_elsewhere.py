"""A copy of the whole job in a file of its own, where the log is gone or its disk full; `bring-in` takes it into any log."""

from collections.abc import Callable
from pathlib import Path
from typing import Protocol

from textual.screen import ModalScreen

from domain.job.exchange import job_to_json
from domain.job.job import Job
from tui.roomy_folder import roomy_folder
from tui.screens.dialogs import LineScreen
from tui.services import Services


class Unsaved(Protocol):
    """What is to be copied."""

    @property
    def services(self) -> Services:
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

    content = job_to_json(job).encode()

    def save(typed: str) -> None:
        path = Path(typed).expanduser()
        try:
            unsaved.services.write_new(path, content)
        except (OSError, ValueError) as error:
            cause = "it exists already" if isinstance(error, FileExistsError) else _cause(error)
            # A place on the same full disk, or a slip of the finger: the question stays until there is a copy, or Esc.
            ask(typed, f"No copy in {path}: {cause}. Type another place.")
        else:
            asks.say(f"A copy is in {path}; ohmfolio bring-in takes it into a log. The entry stays open here")

    def ask(typed: str, why: str) -> None:
        about = (
            f"{why}\n\nThe copy holds the whole job, with what could not be saved; `ohmfolio bring-in` takes it into any "
            "log. Esc goes back to the entry, which stays open."
        )
        asks.ask(LineScreen("Save a copy of the job where?", typed, about), save)

    name = f"{job.number or 'job'}-{unsaved.services.now():%Y-%m-%d-%H%M%S}.json"
    ask(str(roomy_folder(len(content)) / name), unsaved.trouble)


def _cause(error: OSError | ValueError) -> str:
    return getattr(error, "strerror", None) or str(error)
