"""What may be asked of whatever keeps the job log, to look after it: is it whole, who may use it."""

from datetime import datetime
from enum import StrEnum
from typing import Protocol

from domain.value import Value


class Concern(StrEnum):
    """What a fault is about."""

    FILE = "file"
    RECORDS = "issued records"
    PAPERS = "issued papers"
    DRAFTS = "drafts"
    TRAIL = "trail"
    SEARCH = "search index"
    ACCESS = "access"
    LEFTOVERS = "leftovers"


class Fault(Value):
    """Something about the log that is not as it should be."""

    about: Concern
    says: str
    do: str
    """What the person can do about it."""


class Proof(Value):
    """What tells whether two logs are one and the same: counts, and the chain over all issued papers."""

    jobs: int
    issued: int
    head: str
    """In hexadecimal; zeros while nothing is issued."""


class Condition(Value):
    """What looking after the log found."""

    home: str
    proof: Proof
    keeper: str
    """What keeps the log, and how it is guarded."""
    faults: tuple[Fault, ...]
    mended: tuple[str, ...] = ()
    """What was wrong and has been put right."""

    @property
    def well(self) -> bool:
        """Nothing is wrong that was not mended."""
        return not self.faults


class Upkeep(Protocol):
    """Looks after one job log. Methods raise JobLogError where they cannot do it, and nothing else."""

    def tend(self, *, at: datetime, mend: bool = False) -> Condition:
        """Look at everything the log keeps; with `mend`, make anew what can be made from the rest."""
        ...

    def share(self, group: str) -> None:
        """Open the log to a group of this computer's people, and to nobody else."""
        ...
