"""What an office and its laptops tell each other, in the tables that a log in a folder and one on a server have alike."""

import json
from collections.abc import Callable, Generator, Iterator, Mapping, Sequence
from contextlib import contextmanager
from threading import local
from typing import Any, Protocol

from domain.laptops.exchange_store import LastHeard
from domain.laptops.holding import OFFICE, Holding, Station, StationState
from domain.laptops.matter import Matter, MatterKind
from domain.laptops.operation import Act, Ends, Operation, StreamEnd, digest_of
from storage.laptops_remembered import RememberedHoldings
from storage.line_rows import as_written

Row = tuple[Any, ...]
_OPERATION = "device, counter, before, act, job, fence, after, at, body"
_OF_OPERATION = ", ".join(f"operation.{column}" for column in _OPERATION.split(", "))
_STATION = "device, name, person, days, is_office, state, key, was, is_awaited"
_HOLDING = "holder, fence, tip, since, goes_on_as, goes_on_from, is_issued"
_MATTER = "kind, job, device, other, first, last, is_settled"
_PAGE = 200


class Statements(Protocol):
    """Runs statements that both engines read alike, with ? for each value."""

    def run(self, statement: str, values: tuple[Any, ...] = ()) -> list[Row]:
        """The whole answer."""
        ...

    def run_unanswered(self, statement: str, values: tuple[Any, ...]) -> None:
        """A write whose answer nobody needs: done before anything else is asked, or the transaction ends."""
        ...


class ExchangeRows:
    """Fulfils `domain.laptops.exchange_store.ExchangeStore`, but for how a log comes by another name and whose turn it is.

    Writes are made inside a write of the log.
    """

    def __init__(self, statements: Statements, recorded: Callable[[str, int], object]) -> None:
        """`recorded` is told of each operation of this device, by its device and counter."""
        self._statements = statements
        self._recorded = recorded
        self._of_thread = local()

    @contextmanager
    def remembering(self) -> Generator[None]:
        """Read and write once what a bundle asks for and changes at each of its operations."""
        self._of_thread.known = RememberedHoldings()
        try:
            yield
            self._write_holdings()
        finally:
            self._of_thread.known = None

    @property
    def _known(self) -> RememberedHoldings | None:
        return getattr(self._of_thread, "known", None)

    def own(self) -> str:
        """This device; "" where the log is not one of a firm's."""
        if self._known and self._known.own is not None:
            return self._known.own
        row = self._first("SELECT id FROM device WHERE is_here AND id IN (SELECT device FROM station)")
        own = row[0] if row else ""
        if self._known:
            self._known.own = own
        return own

    def station(self, device: str) -> Station | None:
        """What is known of a device."""
        known = self._known
        if known and device in known.stations:
            return known.stations[device]
        row = self._first(f"SELECT {_STATION} FROM station WHERE device = ?", (device,))
        station = _station(row) if row else None
        if known:
            known.stations[device] = station
        return station

    def stations(self) -> tuple[Station, ...]:
        """All of them, in the order they were enrolled."""
        return tuple(map(_station, self._run(f"SELECT {_STATION} FROM station ORDER BY turn")))

    def put_station(self, station: Station) -> None:
        """Keep what is known of a device."""
        if self._known:
            self._known.stations.clear()
            self._known.own = None
        was = json.dumps(station.was)
        values = (*station[:4], int(station.is_office), str(station.state), station.key, was, int(station.is_awaited))
        changed = ", ".join(f"{name} = excluded.{name}" for name in _STATION.split(", ")[1:])
        self._run(
            f"INSERT INTO station ({_STATION}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)"
            f" ON CONFLICT (device) DO UPDATE SET {changed}",
            values,
        )

    def note_heard(self, device: str, heard: LastHeard) -> None:
        """Keep what a device said last."""
        self._run(
            "UPDATE station SET heard = ?, contested = ?, heard_at = ? WHERE device = ?",
            (json.dumps(dict(heard.ends)), json.dumps(heard.contested), heard.at, device),
        )

    def last_heard(self, device: str) -> LastHeard:
        """What that was."""
        row = self._first("SELECT heard, contested, heard_at FROM station WHERE device = ?", (device,))
        if row is None:
            return LastHeard()
        with as_written("What a laptop was heard to say"):
            ends = {each: StreamEnd(*end) for each, end in json.loads(row[0]).items()}
            return LastHeard(ends, tuple(json.loads(row[1])), row[2])

    def ends(self) -> Ends:
        """How far every device has been heard of."""
        rows = self._run(
            "SELECT station.device, counter, digest FROM station JOIN operation ON operation.device = station.device"
            " AND counter = (SELECT max(counter) FROM operation AS other WHERE other.device = station.device)"
        )
        return {device: StreamEnd(counter, digest) for device, counter, digest in rows}

    def add(self, operation: Operation, *, done: bool) -> None:
        """Keep an operation after all others."""
        values = (*operation[:3], str(operation.act), *operation[4:], digest_of(operation), int(done))
        self._statements.run_unanswered(
            f"INSERT INTO operation ({_OPERATION}, digest, is_done) VALUES ({', '.join('?' * len(values))})", values
        )
        if operation.job and (not done or operation.act is Act.SET_ASIDE):
            self._run("INSERT INTO contested (job) VALUES (?) ON CONFLICT DO NOTHING", (operation.job,))
        if operation.device == self.own():
            self._recorded(operation.device, operation.counter)

    def operation(self, device: str, counter: int) -> Operation | None:
        """An operation by its name."""
        row = self._first(f"SELECT {_OPERATION} FROM operation WHERE device = ? AND counter = ?", (device, counter))
        return _operation(row) if row else None

    def following(self, ends: Ends) -> Iterator[Operation]:
        """Those that somebody lacks who has heard so far, a page at a time."""
        heard = [("", 0), *((device, end.counter) for device, end in ends.items())]
        known = ", ".join(["(?, CAST(? AS bigint))"] * len(heard))
        values, after = tuple(each for pair in heard for each in pair), 0
        while rows := self._run(
            f"WITH known (device, counter) AS (VALUES {known})"
            f" SELECT seq, {_OF_OPERATION} FROM operation LEFT JOIN known ON known.device = operation.device"
            " WHERE seq > ? AND operation.counter > coalesce(known.counter, 0) ORDER BY seq LIMIT ?",
            (*values, after, _PAGE),
        ):
            yield from (_operation(row[1:]) for row in rows)
            after = rows[-1][0]

    def set_aside(self, device: str, counter: int) -> None:
        """Have an operation, heard of or to come, not count."""
        self._forget_aside()
        self._run(
            "INSERT INTO operation_aside (device, counter) VALUES (?, ?) ON CONFLICT DO NOTHING", (device, counter)
        )
        self._mark(device, counter, done=False)

    def contested(self) -> tuple[str, ...]:
        """Jobs of which something was set aside, or could not be done here."""
        return tuple(row[0] for row in self._run("SELECT job FROM contested ORDER BY job"))

    def reinstate(self, device: str, counter: int) -> None:
        """An operation that was said to be set aside counts after all."""
        self._forget_aside()
        self._run("DELETE FROM operation_aside WHERE device = ? AND counter = ?", (device, counter))
        self._mark(device, counter, done=True)

    def is_done(self, device: str, counter: int) -> bool:
        """It is here, and was done."""
        sought = "SELECT 1 FROM operation WHERE device = ? AND counter = ? AND is_done = 1"
        return self._first(sought, (device, counter)) is not None

    def is_aside(self, device: str, counter: int) -> bool:
        """It was said to be set aside."""
        if (known := self._known) is None:
            sought = "SELECT 1 FROM operation_aside WHERE device = ? AND counter = ?"
            return self._first(sought, (device, counter)) is not None
        if known.aside is None:
            known.aside = frozenset((each, at) for each, at in self._run("SELECT device, counter FROM operation_aside"))
        return (device, counter) in known.aside

    def _forget_aside(self) -> None:
        if self._known:
            self._known.aside = None

    def holding(self, job: str) -> Holding:
        """How a job stands."""
        known = self._known
        if known and job in known.holdings:
            return known.holdings[job]
        holding = self.holdings_of((job,)).get(job, Holding())
        if known:
            known.holdings[job] = holding
        return holding

    def holdings_of(self, jobs: Sequence[str]) -> Mapping[str, Holding]:
        """How each of several jobs stands, where anything is known."""
        self._write_holdings()
        found: dict[str, Holding] = {}
        for some in (tuple(jobs[at : at + _PAGE]) for at in range(0, len(jobs), _PAGE)):
            asked = ", ".join("?" * len(some))
            rows = self._run(f"SELECT job, {_HOLDING} FROM holding WHERE job IN ({asked})", some)
            found |= {row[0]: Holding._make((*row[1:-1], bool(row[-1]))) for row in rows}
        return found

    def put_holding(self, job: str, holding: Holding) -> None:
        """Keep that."""
        if self._known:
            self._known.holdings[job] = holding
            self._known.written.add(job)
        else:
            self._write_holding(job, holding)

    def _write_holdings(self) -> None:
        if known := self._known:
            for job in sorted(known.written):
                self._write_holding(job, known.holdings[job])
            known.written.clear()

    def _write_holding(self, job: str, holding: Holding) -> None:
        changed = ", ".join(f"{name} = excluded.{name}" for name in _HOLDING.split(", "))
        self._statements.run_unanswered(
            f"INSERT INTO holding (job, {_HOLDING}) VALUES (?, ?, ?, ?, ?, ?, ?, ?)"
            f" ON CONFLICT (job) DO UPDATE SET {changed}",
            (job, *holding[:-1], int(holding.is_issued)),
        )

    def held_by(self, device: str) -> tuple[str, ...]:
        """The jobs a device holds."""
        self._write_holdings()
        rows = self._run(
            "SELECT job FROM holding WHERE holder = ? AND holder <> ? AND (is_issued = 0 OR fence > 0) ORDER BY job",
            (device, OFFICE),
        )
        return tuple(row[0] for row in rows)

    def put_matter(self, matter: Matter) -> None:
        """Keep something to settle, in the place of what was kept under the same key."""
        told = (matter.first, matter.last, int(matter.is_settled))
        if self.matter(matter.key):
            self._run(
                "UPDATE matter SET first = ?, last = ?, is_settled = ?"
                " WHERE kind = ? AND job = ? AND device = ? AND other = ?",
                (*told, str(matter.kind), *matter.key[1:]),
            )
            return
        self._run(
            f"INSERT INTO matter ({_MATTER}) VALUES (?, ?, ?, ?, ?, ?, ?)",
            (str(matter.kind), *matter.key[1:], *told),
        )

    def matter(self, key: tuple[str, str, str, str]) -> Matter | None:
        """What was kept under a key."""
        sought = f"SELECT {_MATTER} FROM matter WHERE kind = ? AND job = ? AND device = ? AND other = ?"
        row = self._first(sought, (str(key[0]), *key[1:]))
        return _matter(row) if row else None

    def matters(self) -> tuple[Matter, ...]:
        """What is not settled, the oldest first."""
        return tuple(map(_matter, self._run(f"SELECT {_MATTER} FROM matter WHERE is_settled = 0 ORDER BY seq")))

    def _mark(self, device: str, counter: int, *, done: bool) -> None:
        self._run("UPDATE operation SET is_done = ? WHERE device = ? AND counter = ?", (int(done), device, counter))

    def _run(self, statement: str, values: tuple[Any, ...] = ()) -> list[Row]:
        return self._statements.run(statement, values)

    def _first(self, statement: str, values: tuple[Any, ...] = ()) -> Row | None:
        return next(iter(self._run(statement, values)), None)


def _operation(row: Row) -> Operation:
    device, counter, before, act, *rest = row
    with as_written("What a laptop told"):
        return Operation(device, counter, before, Act(act), *rest)


def _station(row: Row) -> Station:
    device, name, person, days, is_office, state, key, was, is_awaited = row
    with as_written("What is known of a laptop"):
        names = tuple(json.loads(was))
        return Station(device, name, person, days, bool(is_office), StationState(state), key, names, bool(is_awaited))


def _matter(row: Row) -> Matter:
    kind, *rest, is_settled = row
    with as_written("What is to be settled"):
        return Matter._make((MatterKind(kind), *rest, bool(is_settled)))
