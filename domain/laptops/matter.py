"""What people have to settle between the office and a laptop: always with two plain choices."""

from enum import StrEnum
from typing import NamedTuple


class MatterKind(StrEnum):
    """What happened."""

    ASIDE = "set aside"
    """Work that does not stand: done by whoever did not hold the job, or was not trusted any more."""
    STRANDED = "out with a device that was lost"
    COPIED = "came back, and goes on as a copy"
    TWO_PAPERS = "two papers for one job"
    TWINS = "begun twice"
    STRANGE = "two different things under one name"
    LOST_WORK = "lost with a copy put back"
    SIGNER = "signed by somebody who may not any more"


class Matter(NamedTuple):
    """One of them; the same matter told again is one."""

    kind: MatterKind
    job: str = ""
    device: str = ""
    other: str = ""
    """The other job, or the other bytes."""
    first: int = 0
    last: int = 0
    """What the device did, from one counter to another."""
    is_settled: bool = False

    @property
    def key(self) -> tuple[str, str, str, str]:
        """What makes it one."""
        return self.kind, self.job, self.device, self.other
