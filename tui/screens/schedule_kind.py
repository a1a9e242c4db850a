"""What one schedule differs in from the other."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

from tui.job_page import JobPage
from tui.screens.job_session import JobSession
from tui.widgets.box_view import BoxView


class Remembered(Protocol):
    """What is known of a box from before."""

    def look_up(self) -> None:
        """Somebody comes to the schedule, or back to it."""
        ...

    def lines(self, view: BoxView) -> tuple[str, ...]:
        """What there is to say of a box."""
        ...


class NothingRemembered:
    """Nothing is known from before."""

    def __init__(self, session: JobSession) -> None:
        """Of no job is anything known."""

    def look_up(self) -> None:
        """Nothing to look up."""

    def lines(self, view: BoxView) -> tuple[str, ...]:  # noqa: ARG002
        """Nothing to say."""
        return ()


@dataclass(frozen=True, slots=True)
class ScheduleKind:
    """One of the two schedules of a job."""

    page: JobPage
    boxes: tuple[str, ...]
    """The boxes of a circuit that are typed into on this schedule."""
    description_width: int
    """Characters there are for what a circuit feeds."""
    explains: str
    remembered: Callable[[JobSession], Remembered] = NothingRemembered
