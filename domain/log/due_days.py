"""The days that duties are due, as a store keeps and finds them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING, NamedTuple, Protocol

if TYPE_CHECKING:
    from domain.duties.duty_days import DutyDay, JobDuties
    from domain.forms.form_set import FormSet


class DueRow(NamedTuple):
    """A day something is due for a job, with what the list says of the job."""

    number: str
    form_set: FormSet
    client: str
    premises: str
    contact: str
    day: DutyDay


class UnansweredRow(NamedTuple):
    """A job of which more would be due, or not, by an answer nobody gave."""

    number: str
    client: str
    premises: str
    contact: str
    asks: str
    """The question's id."""


class DueAsked(NamedTuple):
    """Which days are looked for."""

    first: date | None = None
    until: date | None = None
    """Both days are among them."""
    kept: bool | None = None
    """Only papers to be kept until a day, or only what is to be done by one; both where it is not said."""
    done: bool = False
    """What was noted as done, the newest first, in place of what is due, the soonest first."""
    after: tuple[date, str, str] | None = None
    """Go on after this day (the one it was done, where that is asked), job and duty: the next page."""
    limit: int | None = None


class DutyStore(Protocol):
    """The days that duties are due, kept with the line of each job and found without reading any job."""

    def put(self, number: str, owed: JobDuties) -> None:
        """What is due for a job now, in the place of what was."""
        ...

    def rows(self, asked: DueAsked) -> Iterator[DueRow]:
        """Days in their order, of one day by the age of their jobs; read a page at a time."""
        ...

    def counted(self) -> Iterator[tuple[date, bool, int]]:
        """How much is due on each day: so much of it papers to be kept until then, so much to be done by then."""
        ...

    def unanswered(self, after: str, limit: int | None) -> Iterator[UnansweredRow]:
        """Jobs that ask for an answer, the oldest first, after a number."""
        ...

    def count_unanswered(self) -> int:
        """How many there are."""
        ...
