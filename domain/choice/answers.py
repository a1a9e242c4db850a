"""What a person answers about a job before anything else."""

from enum import StrEnum

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
    circuits: int | None = None
    """How many existing circuits were altered or extended."""
    own_work: bool | None = None
    """Designed, built and tested by the people who will sign."""
