"""An office and five laptops at random: what people do, what the line between them does, and what becomes of machines."""

from collections import Counter
from collections.abc import Callable
from random import Random

from domain.laptops.exchange_store import LastHeard
from domain.laptops.holding import StationState
from domain.laptops.making import awaited, begin_office, declare, enrol, grant
from domain.laptops.matter import Matter, MatterKind
from domain.laptops.operation import Act
from domain.laptops.settling import settle
from tests.laptops.machine import Machine, Paperwork
from tests.laptops.memory_exchange import MemoryExchange

LAPTOPS = 5
_VISITS = 400
"""Houses of the town: few enough that two people begin one visit."""
_BACKUPS = 4


class Town:
    """All that goes on."""

    def __init__(self, seed: int, laptops: int = LAPTOPS) -> None:
        self.random = Random(seed)
        self.happened: Counter[str] = Counter()
        self.under_way: list[tuple[Machine, object]] = []
        self.gone: list[Machine] = []
        """Machines that were destroyed, with all they had."""
        self._devices = 0
        self._letters = 0
        store = MemoryExchange(device=self.device())
        begin_office(store, store.device, "A")
        self.office = Machine(store, Paperwork(), "A")
        self.laptops: list[Machine] = []
        for _ in range(laptops):
            self.buy()

    def device(self) -> str:
        self._devices += 1
        return f"d{self._devices}"

    def buy(self) -> None:
        """A new laptop: its log begins as a copy of that of the office."""
        device, letters = self.device(), f"L{chr(ord('A') + self._letters // 26)}{chr(ord('A') + self._letters % 26)}"
        self._letters += 1
        enrol(self.office.store, device, letters, at="")
        self.office.acknowledge()
        store = self.office.store.copied()
        store.device, store.told = device, {}
        store.note_heard(self.office.device, LastHeard(dict(store.ends())))
        laptop = Machine(store, self.office.jobs.copied(), letters)
        self.laptops.append(laptop)

    def run(self, steps: int) -> None:
        chances: list[tuple[Callable[[], None], float]] = [
            (self.work, 50),
            (self.ask_or_give, 14),
            (self.send, 20),
            (self.deliver, 26),
            (self.office_work, 12),
            (self.back_up, 3),
            (self.settle, 3),
            (self.put_back_laptop, 0.8),
            (self.put_back_office, 0.3),
            (self.declare_lost, 0.4),
            (self.destroy, 0.3),
            (self.shut, 0.2),
        ]
        acts, weights = zip(*chances, strict=True)
        for act in self.random.choices(acts, weights, k=steps):
            act()

    def anyone(self) -> Machine:
        return self.random.choice(self.laptops)

    def visit(self) -> str:
        return f"visit {self.random.randrange(_VISITS)}"

    def work(self) -> None:
        self.work_at(self.anyone())

    def office_work(self) -> None:
        office = self.office
        if awaited(office.store):
            self.happened["office waits"] += 1
            return
        if self.random.random() < 0.25 and (mine := office.mine()):
            laptop = self.anyone()
            grant(office.store, self.random.choice(mine), laptop.device, at="")
            office.acknowledge()
            self.happened["lent by hand"] += 1
        else:
            self.work_at(office)

    def work_at(self, machine: Machine) -> None:
        mine = machine.mine()
        chance = self.random.random()
        if chance < 0.2 or not mine:
            machine.begin(self.visit())
            self.happened["begun"] += 1
        elif chance < 0.9:
            machine.do(Act.EDIT, self.random.choice(mine))
            self.happened["edits"] += 1
        else:
            machine.do(Act.ISSUE, self.random.choice(mine))
            self.happened["papers"] += 1

    def ask_or_give(self) -> None:
        laptop = self.anyone()
        mine = [job for job in laptop.mine() if laptop.store.holding(job).holder == laptop.device]
        if mine and self.random.random() < 0.5:
            laptop.do(Act.GIVE, self.random.choice(mine))
            self.happened["given back"] += 1
        elif others := [job for job in laptop.jobs.done if job not in mine]:
            laptop.do(Act.ASK, self.random.choice(others))
            self.happened["asked for"] += 1

    def send(self) -> None:
        laptop = self.anyone()
        sender, to = self.random.choice(((laptop, self.office), (self.office, laptop)))
        bundle = sender.bundle_to(to.device)
        operations = bundle.operations
        if operations and self.random.random() < 0.06:
            at = self.random.randrange(len(operations))
            cut = operations[:at] if self.random.random() < 0.5 else operations[:at] + operations[at + 1 :]
            bundle = bundle._replace(operations=cut)
            self.happened["bundles cut"] += 1
        self.under_way.append((to, bundle))

    def deliver(self) -> None:
        """In any order; some never come, some come twice."""
        if not self.under_way:
            return
        at = self.random.randrange(len(self.under_way))
        to, bundle = self.under_way[at]
        if self.random.random() < 0.8:
            self.under_way.pop(at)
        else:
            self.happened["bundles repeated"] += 1
        if self.random.random() < 0.1 or to in self.gone:
            self.happened["bundles dropped"] += 1
            return
        became = to.take(bundle, crash=self.random.random() < 0.05, name=self.device())
        self.happened[f"bundles: {became}"] += 1

    def back_up(self) -> None:
        machine = self.random.choice([*self.laptops, self.office])
        machine.backups = [*machine.backups, machine.backup()][-_BACKUPS:]

    def put_back_laptop(self) -> None:
        self.put_back(self.anyone())

    def put_back_office(self) -> None:
        self.put_back(self.office)

    def put_back(self, machine: Machine) -> None:
        if machine.backups:
            machine.put_back(self.random.choice(machine.backups), self.device())
            self.happened["office put back" if machine is self.office else "laptops put back"] += 1

    def declare_lost(self) -> None:
        """It may well come back."""
        self._declare(Act.LOST, self.anyone())

    def shut(self) -> None:
        laptop = self.anyone()
        if sum(not each.is_shut for each in self.laptops) > 2:
            self._declare(Act.SHUT, laptop)

    def destroy(self) -> None:
        laptop = self.anyone()
        self._declare(Act.LOST, laptop)
        self.laptops.remove(laptop)
        self.gone.append(laptop)
        self.buy()

    def _declare(self, act: Act, laptop: Machine) -> None:
        station = self.office.store.station(laptop.device)
        if station and station.state is StationState.ACTIVE:
            declare(self.office.store, act, laptop.device, at="")
            self.office.acknowledge()
            self.happened[f"laptops {act}"] += 1

    def settle(self) -> None:
        matters = self.office.store.matters()
        if matters and not awaited(self.office.store):
            self.settle_one(self.random.choice(matters), self.random.choice((1, 2)))

    def settle_one(self, matter: Matter, choice: int) -> None:
        office, copy = self.office, ""
        if matter.kind is MatterKind.STRANDED and choice == 1:
            copy = office.begin(office.jobs.visit.get(matter.job, ""))
        settle(office.store, office.jobs, matter, choice, at="", copy=copy)
        office.acknowledge()
        self.happened[f"settled: {matter.kind}"] += 1

    def heal(self) -> None:
        """Everybody meets until nobody has anything new. Destroyed machines are told to be lost."""
        self.under_way = []
        self._meet()
        here = {laptop.device for laptop in self.laptops}
        for station in self.office.store.stations():
            # A machine that is gone may be known at the office by a name it had before.
            if not station.is_office and station.state is StationState.ACTIVE and station.device not in here:
                declare(self.office.store, Act.LOST, station.device, at="")
        self._meet()

    def _meet(self) -> None:
        for _ in range(8):
            before = self.state()
            for laptop in self.laptops:
                for sender, to in ((laptop, self.office), (self.office, laptop)) * 2:
                    to.take(sender.bundle_to(to.device), crash=False, name=self.device())
            if self.state() == before:
                return

    def state(self) -> list[dict[str, tuple[int, str]]]:
        return [dict(machine.store.ends()) for machine in (self.office, *self.laptops)]
