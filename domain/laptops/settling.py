"""What people at the office have to settle: the two plain choices of each matter, and what they lead to."""

from collections.abc import Callable

from domain.job.job_number import prefix_of
from domain.laptops.exchange_store import ExchangeStore, JobsTold
from domain.laptops.holding import Holding
from domain.laptops.making import called, is_mine, not_in_use, record, settled, tell_copies
from domain.laptops.matter import Matter, MatterKind
from domain.laptops.operation import Act
from domain.laptops.receiving import admitted, close_admitted

CHOICES = {
    MatterKind.ASIDE: ("put it into the job", "leave it out"),
    MatterKind.STRANDED: ("go on with a copy under a new number", "wait for the laptop"),
    MatterKind.COPIED: ("lay one aside", "both stand"),
    MatterKind.TWO_PAPERS: ("one of them will be replaced", "both stand"),
    MatterKind.TWINS: ("lay one aside", "both stand"),
    MatterKind.STRANGE: ("it is known elsewhere", "nothing can be done"),
    MatterKind.LOST_WORK: ("it was typed again", "it is lost"),
    MatterKind.SIGNER: ("the paper stands", "it will be replaced"),
}
"""The first is 1 on the screen, the second 2. Of a matter of two jobs, `choices` name them."""


def aside_of(store: ExchangeStore, matter: Matter, is_paper: Callable[[str], bool]) -> str:
    """Of two jobs the one that can be laid aside: no paper; "" where both are papers, or it is no such matter.

    Of two that look like one visit the one that the office began goes on: it is what was planned.
    """
    if matter.kind not in (MatterKind.TWINS, MatterKind.COPIED):
        return ""
    later, earlier = (matter.other, matter.job) if matter.kind is MatterKind.TWINS else (matter.job, matter.other)
    offices = {station.name for station in store.stations() if station.is_office}
    if matter.kind is MatterKind.TWINS and prefix_of(later) in offices and prefix_of(earlier) not in offices:
        later, earlier = earlier, later
    return next((job for job in (later, earlier) if not is_paper(job)), "")


def choices(store: ExchangeStore, matter: Matter, is_paper: Callable[[str], bool]) -> tuple[str, str]:
    """The two choices of a matter, with the job they are about."""
    if matter.kind is MatterKind.ASIDE and (copy := store.holding(matter.job).goes_on_as):
        return (f"put it into {copy}, as which the job goes on", CHOICES[MatterKind.ASIDE][1])
    if matter.kind not in (MatterKind.TWINS, MatterKind.COPIED):
        return CHOICES[matter.kind]
    aside = aside_of(store, matter, is_paper)
    return (f"lay {aside} aside" if aside else "one of them will be replaced", "both stand")


def set_aside(store: ExchangeStore, matter: Matter) -> tuple[str, ...]:
    """What was set aside of a job, in the words of its trail; () for any other matter."""
    numbers = range(matter.first, matter.last + 1) if matter.kind is MatterKind.ASIDE else ()
    done = (store.operation(matter.device, number) for number in numbers)
    return tuple(str(each.told.get("what", each.act)) for each in done if each and each.job == matter.job)


def settle(store: ExchangeStore, jobs: JobsTold, matter: Matter, choice: int, *, at: str, copy: str = "") -> str:
    """Do what a person chose, 1 or 2; why not, where it cannot be done. `copy` is the job begun to go on with, where one is."""
    if choice == 1 and matter.kind is MatterKind.ASIDE:
        now = store.holding(matter.job)
        if not is_mine(store, now):
            return _while_it_is_out(store, now)
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
    leave(store, matter, choice, at=at)
    return ""


def leave(store: ExchangeStore, matter: Matter, choice: int, *, at: str) -> None:
    """Take a matter off the list, here and at every laptop: what was chosen is done, or nothing has to be."""
    record(store, Act.LEAVE, told={"matter": list(matter.key), "choice": choice}, at=at)
    settled(store, [matter.key])


def _while_it_is_out(store: ExchangeStore, now: Holding) -> str:
    """Why nothing is put into a job now, and what can be done instead."""
    if not_in_use(store.station(now.holder)):
        return (
            f"the job is out with {called(store, now.holder)}, and does not come back from there: go on with a copy of it, "
            "then this can be put into that"
        )
    return f"the job is out with {called(store, now.holder)}; settle this once it is back"
