"""What may be asked of whatever keeps the job log, to look after it: is it whole, who may use it."""

from collections.abc import Callable
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
    REGISTERS = "registers"
    NOTES = "notes"
    LINES = "lines of the log"
    LEDGER = "ledger"
    """What says in which order everything was kept, and the file beside the log that says up to where."""
    SEARCH = "search index"
    ACCESS = "access"
    KEY = "key of the seal"
    LEFTOVERS = "leftovers"


class LogFault(Value):
    """Something about the log that is not as it should be."""

    about: Concern
    says: str
    do: str
    """What the person can do about it."""
    jobs: tuple[str, ...] = ()
    """Whose record, draft or trail it is about; nothing of theirs is made to look sound by mending."""


class Unproven(Value):
    """Something that looking after a log cannot prove, and that need not be a fault."""

    says: str
    job: str = ""
    """Which job it is about; "" for the log as a whole."""


class CopyProof(Value):
    """What tells whether two logs are one and the same: counts, and the chain over all issued papers."""

    jobs: int
    issued: int
    head: str
    """In hexadecimal; zeros while nothing is issued."""


class Condition(Value):
    """What looking after the log found."""

    home: str
    """The folder of the log, or its address."""
    proof: CopyProof
    keeper: str
    """What keeps the log, and how it is guarded."""
    faults: tuple[LogFault, ...]
    mended: tuple[str, ...] = ()
    """What was wrong and has been put right."""
    unproven: tuple[Unproven, ...] = ()
    proved_before: int = 0
    """So many jobs are, to the byte, as an earlier look proved them, and were not gone through again."""
    folded: int = 0
    """The trails of so many papers that an earlier version issued were folded."""
    since: datetime | None = None
    """Only jobs touched since were gone through; None for all."""

    @property
    def well(self) -> bool:
        """Nothing is wrong that was not mended."""
        return not self.faults


class Copy(Value):
    """A copy of the log that was made and proved."""

    path: str
    proof: CopyProof
    papers: int
    """How many issued papers it holds; a copy of the day holds none, for they lie beside it and never change."""
    missing: tuple[str, ...] = ()
    """Numbers of papers that could not be put into it."""
    holds_key: bool = False
    """The key of the seal is in it, locked by a phrase."""


class Restored(Value):
    """What going back to a copy led to."""

    proof: CopyProof
    before: CopyProof | None
    """Of the log that was there; None where there was none, or none that could be read."""
    aside: str
    """Folder that keeps the log that was there; "" where there was none."""
    only_there: tuple[str, ...]
    """Numbers issued in the log that was there, and not in the copy."""
    missing: tuple[str, ...]
    """Numbers whose papers neither the copy nor the folder held."""
    prefix: str
    """Begins the numbers given from now on, so that none is given twice."""
    key_missing: str = ""
    """The fingerprint of the key that the log seals with, where that is not here."""
    key_is_locked: bool = False
    """It came with the copy, locked by a phrase."""
    made_anew: str = ""
    """What in the copy did not follow from its jobs, and was made anew from them; "" where all of it did."""


class MovedLog(Value):
    """A log that was moved whole from one place to another, and proved there."""

    proof: CopyProof
    papers: int
    rows: str
    """A digest over every row, the same at both places, in hexadecimal."""


class Upkeep(Protocol):
    """Looks after one job log, whatever keeps it. Raises JobLogError where it cannot do it, and nothing else."""

    def tend(
        self,
        *,
        at: datetime,
        mend: bool = False,
        anew: bool = False,
        since: datetime | None = None,
        told: Callable[[int, int], None] = ...,
    ) -> Condition:
        """Look at everything the log keeps; with `mend`, make anew what can be made from the rest.

        Jobs that an earlier look proved and that are unchanged are passed over, but where it is asked to look `anew`
        or to mend; `since` goes through no others than those touched after it. `told` hears of the jobs done, of how many.
        """
        ...

    def share(self, group: str) -> None:
        """Open the log to a group of people: of this computer, or of the server that keeps it."""
        ...


class FolderUpkeep(Upkeep, Protocol):
    """Looks after a log in a folder of this computer: copies of it, and the way back to them."""

    def back_up(self, to: str, *, phrase: str = "") -> Copy:
        """Write a copy of the log with its issued papers into a new file, and prove it.

        The key of the seal goes with it where a phrase locks it, and is left out otherwise.
        """
        ...

    def copy_of_the_day(self, *, at: datetime, keep: int) -> Copy | None:
        """Keep today's copy beside the log, and only so many days' in all; None where nothing has changed since."""
        ...

    def unlock_key(self, phrase: str) -> str:
        """Take the key of the seal, which a restored copy brought along, out of its lock; its fingerprint."""
        ...

    def restore(
        self, copy: str, *, at: datetime, told: Callable[[int, int], object] = lambda _done, _of: None
    ) -> Restored:
        """Prove a copy and put it in the place of the log, which is kept aside. Nobody may have the log open.

        `told` hears, from another thread, how many jobs of how many are proved.
        """
        ...
