"""What the protocol is kept in: the port that memory and job logs fulfil. Every call is made inside a transaction of the log."""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import AbstractContextManager
from types import MappingProxyType
from typing import NamedTuple, Protocol

from domain.laptops.holding import Holding, Station
from domain.laptops.matter import Matter
from domain.laptops.operation import Ends, Operation


class LastHeard(NamedTuple):
    """What another device said last."""

    ends: Ends = MappingProxyType({})
    contested: tuple[str, ...] = ()
    at: str = ""
    """When, by the clock here; "" where it never was."""


class ExchangeStore(Protocol):
    """Operations in the order they were heard of, who holds which job, who there is, what has to be settled."""

    def take_turn(self) -> None:
        """Nobody else does anything in this log before the transaction ends: it is about to become one of a firm's."""
        ...

    def remembering(self) -> AbstractContextManager[None]:
        """While it lasts, inside a transaction that has the turn, what was read need not be read again, nor written at once."""
        ...

    def own(self) -> str:
        """This device; "" while this log has no laptops and is none."""
        ...

    def become(self, device: str, name: str) -> None:
        """Record, and number jobs, under another name from now on."""
        ...

    def station(self, device: str) -> Station | None:
        """What is known of a device."""
        ...

    def stations(self) -> tuple[Station, ...]:
        """All of them, in the order they were enrolled."""
        ...

    def put_station(self, station: Station) -> None:
        """Keep what is known of a device."""
        ...

    def note_heard(self, device: str, heard: LastHeard) -> None:
        """Keep what a device said last of how far it had come."""
        ...

    def last_heard(self, device: str) -> LastHeard:
        """What that was; nothing where it never said anything."""
        ...

    def ends(self) -> Ends:
        """How far every device has been heard of."""
        ...

    def add(self, operation: Operation, *, done: bool) -> None:
        """Keep an operation after all others; whether it was done, or is only known of."""
        ...

    def operation(self, device: str, counter: int) -> Operation | None:
        """An operation by its name; None for one from before the logs parted, too."""
        ...

    def following(self, ends: Ends) -> Iterator[Operation]:
        """Those that somebody lacks who has heard so far, in the order they were kept."""
        ...

    def set_aside(self, device: str, counter: int) -> None:
        """Have an operation, heard of or to come, not count."""
        ...

    def contested(self) -> tuple[str, ...]:
        """Jobs of which something was set aside, or could not be done here."""
        ...

    def reinstate(self, device: str, counter: int) -> None:
        """An operation that was said to be set aside counts after all, and where it is here, it is done."""
        ...

    def is_done(self, device: str, counter: int) -> bool:
        """It is here, and was done."""
        ...

    def is_aside(self, device: str, counter: int) -> bool:
        """It was said to be set aside."""
        ...

    def holding(self, job: str) -> Holding:
        """How a job stands; with the office where nothing is known."""
        ...

    def holdings_of(self, jobs: Sequence[str]) -> Mapping[str, Holding]:
        """How each of several jobs stands, where anything is known."""
        ...

    def put_holding(self, job: str, holding: Holding) -> None:
        """Keep that."""
        ...

    def held_by(self, device: str) -> tuple[str, ...]:
        """The jobs a device holds that are not issued, and those it holds to correct."""
        ...

    def put_matter(self, matter: Matter) -> None:
        """Keep something to settle, in the place of what was kept under the same key."""
        ...

    def matter(self, key: tuple[str, str, str, str]) -> Matter | None:
        """What was kept under a key."""
        ...

    def matters(self) -> tuple[Matter, ...]:
        """What is not settled, the oldest first."""
        ...


class JobsTold(Protocol):
    """What is done to jobs, when it is heard of. The protocol decides whether and in which order."""

    def perform(self, operation: Operation) -> None:
        """Do it here too."""
        ...

    def write_down(self) -> None:
        """Have all of that stand in the log, which may have waited so far."""
        ...

    def keep_aside(self, operation: Operation) -> None:
        """Keep what came with an operation that does not count here, or not yet."""
        ...

    def document(self, job: str) -> str:
        """A job as it stands here, for those who have it otherwise; "" where it is not here."""
        ...

    def admit(self, operation: Operation) -> None:
        """Do what was set aside to the job as it stands now, as far as that goes."""
        ...

    def stand(self, job: str, document: str) -> None:
        """Have a job be as the office has it."""
        ...

    def twins(self, job: str) -> tuple[str, ...]:
        """Jobs begun elsewhere that look like the same visit."""
        ...
