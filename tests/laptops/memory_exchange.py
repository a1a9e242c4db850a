"""The protocol kept in memory: the smallest thing that fulfils its port."""

from collections.abc import Iterator
from contextlib import AbstractContextManager, nullcontext
from copy import copy
from dataclasses import dataclass, field
from typing import Self

from domain.laptops.exchange_store import LastHeard
from domain.laptops.holding import Holding, Station
from domain.laptops.matter import Matter
from domain.laptops.operation import Act, Operation, StreamEnd, digest_of


@dataclass
class MemoryExchange:
    """Fulfils `domain.laptops.exchange_store.ExchangeStore`. All that is kept is frozen, so a copy of the shelves is a backup."""

    device: str = ""
    order: list[Operation] = field(default_factory=list)
    named: dict[tuple[str, int], Operation] = field(default_factory=dict)
    place: dict[tuple[str, int], int] = field(default_factory=dict)
    """Where in the order each stands."""
    heard: dict[str, StreamEnd] = field(default_factory=dict)
    aside: set[tuple[str, int]] = field(default_factory=set)
    done: set[tuple[str, int]] = field(default_factory=set)
    doubtful: dict[str, None] = field(default_factory=dict)
    holdings: dict[str, Holding] = field(default_factory=dict)
    known: dict[str, Station] = field(default_factory=dict)
    said: dict[str, LastHeard] = field(default_factory=dict)
    told: dict[tuple[str, str, str, str], Matter] = field(default_factory=dict)

    def copied(self) -> Self:
        other = copy(self)
        for name, held in vars(self).items():
            setattr(other, name, copy(held))
        return other

    def take_turn(self) -> None:
        pass

    def remembering(self) -> AbstractContextManager[None]:
        return nullcontext()

    def own(self) -> str:
        return self.device

    def become(self, device: str, name: str) -> None:
        self.device = device

    def station(self, device: str) -> Station | None:
        return self.known.get(device)

    def stations(self) -> tuple[Station, ...]:
        return tuple(self.known.values())

    def put_station(self, station: Station) -> None:
        self.known[station.device] = station

    def note_heard(self, device: str, heard: LastHeard) -> None:
        self.said[device] = heard

    def last_heard(self, device: str) -> LastHeard:
        return self.said.get(device, LastHeard())

    def ends(self) -> dict[str, StreamEnd]:
        return self.heard

    def add(self, operation: Operation, *, done: bool) -> None:
        assert operation.counter == self.heard.get(operation.device, StreamEnd()).counter + 1
        assert operation.name not in self.named
        self.place[operation.device, operation.counter] = len(self.order)
        self.order.append(operation)
        self.named[operation.device, operation.counter] = operation
        self.heard[operation.device] = StreamEnd(operation.counter, digest_of(operation))
        if done:
            self.done.add((operation.device, operation.counter))
        if operation.job and (not done or operation.act is Act.SET_ASIDE):
            self.doubtful[operation.job] = None

    def operation(self, device: str, counter: int) -> Operation | None:
        return self.named.get((device, counter))

    def following(self, ends) -> Iterator[Operation]:
        known = {device: ends[device].counter if device in ends else 0 for device in self.heard}
        begun = (self.place.get((device, counter + 1), len(self.order)) for device, counter in known.items())
        return iter([each for each in self.order[min(begun, default=0) :] if each.counter > known[each.device]])

    def set_aside(self, device: str, counter: int) -> None:
        self.done.discard((device, counter))
        self.aside.add((device, counter))

    def contested(self) -> tuple[str, ...]:
        return tuple(self.doubtful)

    def reinstate(self, device: str, counter: int) -> None:
        self.aside.discard((device, counter))
        if (device, counter) in self.named:
            self.done.add((device, counter))

    def is_done(self, device: str, counter: int) -> bool:
        return (device, counter) in self.done

    def is_aside(self, device: str, counter: int) -> bool:
        return (device, counter) in self.aside

    def holding(self, job: str) -> Holding:
        return self.holdings.get(job, Holding())

    def holdings_of(self, jobs):
        return {job: self.holdings[job] for job in jobs if job in self.holdings}

    def put_holding(self, job: str, holding: Holding) -> None:
        self.holdings[job] = holding

    def held_by(self, device: str) -> tuple[str, ...]:
        return tuple(
            job for job, each in self.holdings.items() if each.holder == device and (not each.is_issued or each.fence)
        )

    def put_matter(self, matter: Matter) -> None:
        self.told[matter.key] = matter

    def matter(self, key) -> Matter | None:
        return self.told.get(key)

    def matters(self) -> tuple[Matter, ...]:
        return tuple(each for each in self.told.values() if not each.is_settled)
