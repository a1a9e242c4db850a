"""A screen that has paper made, or looked at, while it stays alive."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from textual import on
from textual.message import Message

from tui.screens.page import Page
from tui.screens.paper_making import Attempt
from tui.services import Services


class PaperMaker(Page):
    """Makes one paper at a time in a thread of its own, and hears what became of it."""

    is_making: bool = False
    """A paper is being made; another one waits to be asked for."""

    @dataclass
    class Made(Message):
        """A paper is finished, refused, or could not be made."""

        attempt: Attempt

    def make(self, folder: str, paper: Callable[[Path, Services], Attempt], what: str) -> None:
        """Have a paper made into a folder, or a file looked at, and say so."""
        desk, path = self.ohmfolio.desk, Path(folder).expanduser().absolute()
        self.is_making = True
        self.say(f"Making {what} …")
        self.run_worker(
            lambda: self.post_message(self.Made(paper(path, desk))), thread=True, exclusive=True, group="paper"
        )

    def made(self, attempt: Attempt) -> None:
        """Say what became of it."""
        self.say(attempt.says, bad=attempt.is_trouble)

    @on(Made)
    def hear_made(self, event: Made) -> None:
        """The paper is done with."""
        self.is_making = False
        self.made(event.attempt)
