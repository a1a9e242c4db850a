"""What screens may ask of the program they belong to."""

from __future__ import annotations

from abc import abstractmethod
from typing import TYPE_CHECKING

from textual.app import App

if TYPE_CHECKING:
    from textual.events import Event

    from domain.place import Place
    from tui.coaching import Coaching
    from tui.draft_answer import Unfinished
    from tui.job_page import JobPage
    from tui.services import Services
    from tui.user_name import Naming


class Program(App[None], inherit_bindings=False):
    """The desk, what is kept of the person, and the ways from screen to screen."""

    desk: Services
    coaching: Coaching
    naming: Naming
    unfinished: Unfinished
    goes_across: bool
    """Enter on a schedule goes on across the circuit, not down the column."""
    places: dict[tuple[str, JobPage], Place]
    """Where the cursor was left on each step of a job."""

    @abstractmethod
    def open_job(self, number: str) -> None:
        """Open a job where this person left it; one that is open below is come back to."""

    @abstractmethod
    def turn_back(self, trouble: str) -> None:
        """Leave a job that cannot be opened, and say why."""

    @abstractmethod
    def find_job(self, words: str) -> None:
        """Look for a job by words of it."""

    @abstractmethod
    def start_job(self, number: str) -> None:
        """Open a job that was just begun, in place of the decision; the next one starts from the first question."""

    @abstractmethod
    def visit(self, place: Place) -> None:
        """Go to a place of the job that is open."""

    @abstractmethod
    def open_step(self, number: str, step: JobPage, place: Place | None = None, says: str = "") -> None:
        """Go from one step of a job to another."""

    @abstractmethod
    async def handle_typed(self, event: Event) -> None:
        """Take a key whose turn it is."""
