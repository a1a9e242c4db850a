"""What people at the office have to settle: the two plain choices of each matter, and what they lead to."""

from domain.laptops.exchange_store import ExchangeStore, JobsTold
from domain.laptops.making import is_mine, record, settled, tell_copies
from domain.laptops.matter import Matter, MatterKind
from domain.laptops.operation import Act
from domain.laptops.receiving import admitted, close_admitted

CHOICES = {
    MatterKind.ASIDE: ("put it into the job", "leave it out"),
    MatterKind.STRANDED: ("go on with a copy under a new number", "wait for the laptop"),
    MatterKind.COPIED: ("the copy is the job; leave the other", "both stand"),
    MatterKind.TWO_PAPERS: ("one of them will be replaced", "both stand"),
    MatterKind.TWINS: ("lay the second aside", "both stand"),
    MatterKind.STRANGE: ("it is known elsewhere", "nothing can be done"),
    MatterKind.LOST_WORK: ("it was typed again", "it is lost"),
    MatterKind.SIGNER: ("the paper stands", "it will be replaced"),
}
"""The first is 1 on the screen, the second 2."""


def settle(store: ExchangeStore, jobs: JobsTold, matter: Matter, choice: int, *, at: str, copy: str = "") -> str:
    """Do what a person chose, 1 or 2; why not, where it cannot be done. `copy` is the job begun to go on with, where one is."""
    if choice == 1 and matter.kind is MatterKind.ASIDE:
        now = store.standing(matter.job)
        if not is_mine(store, now):
            return "the job is out; settle this once it is back"
        if now.is_issued:
            return "the job has been issued"
        told = {"device": matter.device, "first": matter.first, "last": matter.last}
        operation = record(store, Act.ADMIT, matter.job, told=told, at=at)
        for each in admitted(store, operation):
            jobs.admit(each)
        close_admitted(store, operation)
        # A paper may have been among it.
        tell_copies(store, matter.job, matter.device)
        return ""
    if choice == 1 and matter.kind is MatterKind.STRANDED:
        record(store, Act.COPY, matter.job, told={"as": copy}, at=at)
        tell_copies(store, copy, matter.device)
    record(store, Act.LEAVE, told={"matter": list(matter.key), "choice": choice}, at=at)
    settled(store, [matter.key])
    return ""
