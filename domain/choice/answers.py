"""What a person answers about a job before anything else."""

from enum import StrEnum
from typing import Annotated

from pydantic import Field, StrictBool

from domain.value import Value


class Done(StrEnum):
    """What was done, in the trade's words."""

    NEW_CIRCUIT = "new-circuit"
    BOARD = "board"
    ALTERATION = "alteration"
    INSPECTION = "inspection"


class Answers(Value):
    """The answers the rules decide over. None: not asked, or not answered yet."""

    done: Done | None = None
    circuits: Annotated[int, Field(ge=0, le=10_000, strict=True)] | None = None
    """How many existing circuits were altered or extended; 0 for earthing, bonding or tails alone."""
    own_work: StrictBool | None = None
    """Designed, built and tested by the people who will sign."""
