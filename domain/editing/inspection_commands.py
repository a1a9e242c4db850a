"""What can be done to the inspection of a job: outcomes, items of its own, observations."""

from typing import Annotated, Literal

from pydantic import Field

from domain.inspection.item_outcome import InspectionOutcome
from domain.inspection.observation import Code, ImmediateAction
from domain.place import Place
from domain.value import Value


class SetOutcome(Value):
    """Set the mark of an inspection item; None takes it away."""

    do: Literal["outcome"] = "outcome"
    item: str
    mark: InspectionOutcome | None
    note: str = ""


class MarkItems(Value):
    """Give several inspection items the same mark in one go: all of them, or none where one cannot have it."""

    do: Literal["mark-items"] = "mark-items"
    items: Annotated[tuple[str, ...], Field(min_length=1)]
    mark: InspectionOutcome


class AddItem(Value):
    """Add an item to the inspection, for premises the usual list does not fit."""

    do: Literal["add-item"] = "add-item"
    title: str
    regulations: str = ""


class RemoveItem(Value):
    """Remove an added item with its outcome."""

    do: Literal["remove-item"] = "remove-item"
    item: str


class Observe(Value):
    """Write an observation, or rewrite the one with `observation` as its id."""

    do: Literal["observe"] = "observe"
    observation: str = ""
    finding: str
    code: Code
    where: str = ""
    items: tuple[str, ...] = ()
    about: Place | None = None
    reason: str = ""
    answers: tuple[Place, ...] = ()
    """Failing boxes it answers from now on, beside those it answered before."""


class AnswerFailures(Value):
    """Say which failing boxes an observation answers: these, and no others."""

    do: Literal["answer-failures"] = "answer-failures"
    observation: str
    answers: tuple[Place, ...]


class RecordAction(Value):
    """Say what was done at once about a C1."""

    do: Literal["record-action"] = "record-action"
    observation: str
    action: ImmediateAction


class Withdraw(Value):
    """Take an observation away."""

    do: Literal["withdraw"] = "withdraw"
    observation: str
