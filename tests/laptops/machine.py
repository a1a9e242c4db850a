"""One computer of the firm as the simulation has it: its log, what a stamp outside that remembers, and what people were told is kept."""

from copy import copy
from typing import NamedTuple

from domain.laptops.bundle import Bundle, GapError
from domain.laptops.course import is_office
from domain.laptops.exchange_store import LastHeard
from domain.laptops.holding import OFFICE, Holding, StationState
from domain.laptops.making import go_on_as, record
from domain.laptops.operation import Act, Operation, StreamEnd
from domain.laptops.receiving import bundle_for, take_in, tell_twins_since
from tests.laptops.memory_exchange import MemoryExchange

_NEW = Holding()


class Paperwork:
    """A job is the names of all that was done to it. Fulfils `domain.laptops.exchange_store.JobsTold`."""

    def __init__(self) -> None:
        self.done: dict[str, tuple[str, ...]] = {}
        self.visit: dict[str, str] = {}
        self._at: dict[str, tuple[str, ...]] = {}
        """The jobs begun for each visit."""

    def copied(self) -> "Paperwork":
        other = Paperwork()
        other.done, other.visit, other._at = copy(self.done), copy(self.visit), copy(self._at)
        return other

    def perform(self, operation: Operation) -> None:
        if operation.act is Act.BEGIN:
            self._begin(operation.job, operation.body)
        self.done[operation.job] = (*self.done.get(operation.job, ()), operation.name)

    admit = perform

    def write_down(self) -> None:
        """Nothing waits."""

    def keep_aside(self, operation: Operation) -> None:
        """Nothing comes beside an operation."""

    def document(self, job: str) -> str:
        return "\n".join((self.visit.get(job, ""), *self.done.get(job, ())))

    def stand(self, job: str, document: str) -> None:
        visit, *done = document.split("\n")
        self._begin(job, visit if done else "")
        self.done.pop(job, None)
        if done:
            self.done[job] = tuple(done)

    def twins(self, job: str) -> tuple[str, ...]:
        letters, visit = job.partition("-")[0], self.visit.get(job, "")
        return tuple(other for other in self._at.get(visit, ()) if other.partition("-")[0] != letters)

    def _begin(self, job: str, visit: str) -> None:
        """Have a job be of a visit; of none, where that is ""."""
        if before := self.visit.pop(job, ""):
            self._at[before] = tuple(each for each in self._at[before] if each != job)
        if visit:
            self.visit[job] = visit
            self._at[visit] = (*self._at.get(visit, ()), job)


class Backup(NamedTuple):
    """A copy of a log, as it was."""

    store: MemoryExchange
    jobs: Paperwork
    numbers: int


class CrashError(Exception):
    """The program ended before anything was saved."""


class Machine:
    """The office, or a laptop."""

    has_stamp = True

    def __init__(self, store: MemoryExchange, jobs: Paperwork, letters: str) -> None:
        self.store, self.jobs, self.letters, self.numbers = store, jobs, letters, 0
        self.stamps: dict[str, int] = {}
        """Outside the log: how far each of its names had come. It is not put back with a copy."""
        self.names = [letters]
        self.kept: set[str] = set()
        """What people at this machine were told is kept, by name."""
        self.backups: list[Backup] = []

    @property
    def device(self) -> str:
        return self.store.own()

    @property
    def is_shut(self) -> bool:
        station = self.store.station(self.device)
        return station is not None and station.state is StationState.SHUT

    def do(self, act: Act, job: str = "", body: str = "", at: str = "") -> None:
        operation = record(self.store, act, job, body=body, at=at)
        if act.is_of_a_job:
            self.jobs.perform(operation)
        self.acknowledge()

    def acknowledge(self) -> None:
        """All that is in the log of its own was told to be kept, and the stamp follows."""
        before = self.stamps.get(self.device, 0)
        now = self.store.ends().get(self.device, StreamEnd()).counter
        for counter in range(before + 1, now + 1):
            operation = self.store.operation(self.device, counter)
            if operation and operation.act is not Act.SET_ASIDE:
                self.kept.add(operation.name)
        self.stamps[self.device] = now

    def begin(self, visit: str) -> str:
        self.numbers += 1
        number = f"{self.names[-1]}-{self.numbers:04d}"
        self.do(Act.BEGIN, number, visit)
        return number

    def mine(self) -> list[str]:
        """Jobs it may change."""
        holdings = self.store.holdings
        holder = OFFICE if self.is_office() else self.device
        here = ((job, holdings.get(job, _NEW)) for job in self.jobs.done)
        return [job for job, each in here if not each.is_issued and each.holder == holder]

    def bundle_to(self, peer: str) -> Bundle:
        said = self.store.last_heard(peer)
        made = bundle_for(self.store, said.ends, self.jobs, said.contested)
        return made._replace(operations=tuple(made.operations))

    def take(self, bundle: Bundle, *, crash: bool, name: str) -> str:
        """Take it in as a program does: all or nothing. What became of it."""
        said = LastHeard(dict(bundle.ends), bundle.contested)
        tell_twins_since(self.store, self.jobs, bundle.sender, self.store.last_heard(bundle.sender).ends)
        self.store.note_heard(bundle.sender, said)
        held = self.backup()
        try:
            taken = take_in(self.store, bundle, self.jobs, at="")
            if crash:
                raise CrashError
        except GapError:
            self._roll_back(held)
            return "gap"
        except CrashError:
            self._roll_back(held)
            return "crash"
        if taken.put_back:
            self.go_on(name)
            return "put back"
        self.acknowledge()
        return "taken"

    def backup(self) -> Backup:
        return Backup(self.store.copied(), self.jobs.copied(), self.numbers)

    def put_back(self, backup: Backup, name: str) -> None:
        """The log as it was once; the stamp shows it at once, for it is not in the log."""
        self._roll_back(backup)
        if not self.has_stamp:
            self.stamps[self.device] = self.store.ends().get(self.device, StreamEnd()).counter
        elif self.store.ends().get(self.device, StreamEnd()).counter < self.stamps.get(self.device, 0) or (
            self.stamps and list(self.stamps)[-1] != self.device
        ):
            self.go_on(name)

    def go_on(self, name: str) -> None:
        """Take another name and other letters."""
        letters = f"{self.letters}{chr(ord('A') + len(self.names) % 26)}{len(self.names) // 26 or ''}"
        self.names.append(letters)
        self.numbers = 0
        go_on_as(self.store, name, letters, stamped=dict(self.stamps), at="")
        self.acknowledge()

    def is_office(self) -> bool:
        return is_office(self.store, self.device)

    def _roll_back(self, backup: Backup) -> None:
        self.store, self.jobs, self.numbers = backup.store.copied(), backup.jobs.copied(), backup.numbers
