"""What an office and its laptops tell each other, kept in the file of the log."""

import json
from collections.abc import Callable, Iterator

from domain.laptops.exchange_store import LastHeard
from domain.laptops.matter import Matter, MatterKind
from domain.laptops.operation import Act, Ends, Operation, StreamEnd, digest_of
from domain.laptops.standing import OFFICE, Standing, Station, StationState
from storage.line_rows import as_written
from storage.log_file import LogFile, Row
from storage.witnessing import WITNESS_TASK

_OPERATION = "device, counter, before, act, job, fence, after, at, body"
_STATION = "device, name, person, days, is_office, state, key, was, is_awaited"
_STANDING = "holder, fence, tip, since, goes_on_as, goes_on_from, is_issued"
_MATTER = "kind, job, device, other, first, last, is_settled"
_PAGE = 200


class SqliteExchange:
    """Fulfils `domain.laptops.exchange_store.ExchangeStore`. Writes are made inside a write of the file."""

    def __init__(self, file: LogFile, recorded: Callable[[str, int], object]) -> None:
        """`recorded` is told of each operation of this device, by its device and counter."""
        self._file = file
        self._recorded = recorded

    def own(self) -> str:
        """This device; "" where the log is not one of a firm's."""
        row = self._file.first("SELECT id FROM device WHERE is_here = 1 AND id IN (SELECT device FROM station)")
        return row[0] if row else ""

    def become(self, device: str, name: str) -> None:
        """Number and record under another name; the witness of the log begins anew with it."""
        self._file.run("UPDATE device SET is_here = 0")
        self._file.run(
            "INSERT INTO device (id, prefix, next_number, next_op, is_here) VALUES (?, ?, 1, 1, 1)"
            " ON CONFLICT (id) DO UPDATE SET is_here = 1",
            (device, name),
        )
        self._file.run("INSERT OR IGNORE INTO pending_task (name) VALUES (?)", (WITNESS_TASK,))

    def station(self, device: str) -> Station | None:
        """What is known of a device."""
        row = self._file.first(f"SELECT {_STATION} FROM station WHERE device = ?", (device,))
        return _station(row) if row else None

    def stations(self) -> tuple[Station, ...]:
        """All of them, in the order they were enrolled."""
        return tuple(map(_station, self._file.run(f"SELECT {_STATION} FROM station ORDER BY turn")))

    def put_station(self, station: Station) -> None:
        """Keep what is known of a device."""
        values = station._asdict() | {"state": str(station.state), "was": json.dumps(station.was)}
        columns = ", ".join(f":{name}" for name in values)
        changed = ", ".join(f"{name} = excluded.{name}" for name in values if name != "device")
        self._file.run(
            f"INSERT INTO station ({', '.join(values)}) VALUES ({columns}) ON CONFLICT (device) DO UPDATE SET {changed}",
            values,
        )

    def note_heard(self, device: str, heard: LastHeard) -> None:
        """Keep what a device said last."""
        self._file.run(
            "UPDATE station SET heard = ?, contested = ?, heard_at = ? WHERE device = ?",
            (json.dumps(dict(heard.ends)), json.dumps(heard.contested), heard.at, device),
        )

    def last_heard(self, device: str) -> LastHeard:
        """What that was."""
        row = self._file.first("SELECT heard, contested, heard_at FROM station WHERE device = ?", (device,))
        if row is None:
            return LastHeard()
        with as_written("What a laptop was heard to say"):
            ends = {each: StreamEnd(*end) for each, end in json.loads(row[0]).items()}
            return LastHeard(ends, tuple(json.loads(row[1])), row[2])

    def ends(self) -> Ends:
        """How far every device has been heard of."""
        rows = self._file.run(
            "SELECT station.device, counter, digest FROM station JOIN operation ON operation.device = station.device"
            " AND counter = (SELECT max(counter) FROM operation AS other WHERE other.device = station.device)"
        )
        return {device: StreamEnd(counter, digest) for device, counter, digest in rows}

    def add(self, operation: Operation, *, done: bool) -> None:
        """Keep an operation after all others."""
        values = (*operation[:3], str(operation.act), *operation[4:], digest_of(operation), done)
        self._file.run(
            f"INSERT INTO operation ({_OPERATION}, digest, is_done) VALUES ({', '.join('?' * len(values))})", values
        )
        if operation.job and (not done or operation.act is Act.SET_ASIDE):
            self._file.run("INSERT OR IGNORE INTO contested (job) VALUES (?)", (operation.job,))
        if operation.device == self.own():
            self._recorded(operation.device, operation.counter)

    def operation(self, device: str, counter: int) -> Operation | None:
        """An operation by its name."""
        row = self._file.first(
            f"SELECT {_OPERATION} FROM operation WHERE device = ? AND counter = ?", (device, counter)
        )
        return _operation(row) if row else None

    def following(self, ends: Ends) -> Iterator[Operation]:
        """Those that somebody lacks who has heard so far, a page at a time."""
        known = json.dumps({device: end.counter for device, end in ends.items()})
        after = 0
        while rows := self._file.run(
            f"SELECT seq, {_OPERATION} FROM operation LEFT JOIN json_each(?) AS known ON known.key = device"
            " WHERE seq > ? AND counter > coalesce(known.value, 0) ORDER BY seq LIMIT ?",
            (known, after, _PAGE),
        ):
            yield from (_operation(row[1:]) for row in rows)
            after = rows[-1][0]

    def set_aside(self, device: str, counter: int) -> None:
        """Have an operation, heard of or to come, not count."""
        self._file.run("INSERT OR IGNORE INTO operation_aside (device, counter) VALUES (?, ?)", (device, counter))
        self._mark(device, counter, done=False)

    def contested(self) -> tuple[str, ...]:
        """Jobs of which something was set aside, or could not be done here."""
        return tuple(row[0] for row in self._file.run("SELECT job FROM contested ORDER BY rowid"))

    def reinstate(self, device: str, counter: int) -> None:
        """An operation that was said to be set aside counts after all."""
        self._file.run("DELETE FROM operation_aside WHERE device = ? AND counter = ?", (device, counter))
        self._mark(device, counter, done=True)

    def is_done(self, device: str, counter: int) -> bool:
        """It is here, and was done."""
        sought = "SELECT 1 FROM operation WHERE device = ? AND counter = ? AND is_done = 1"
        return self._file.first(sought, (device, counter)) is not None

    def is_aside(self, device: str, counter: int) -> bool:
        """It was said to be set aside."""
        sought = "SELECT 1 FROM operation_aside WHERE device = ? AND counter = ?"
        return self._file.first(sought, (device, counter)) is not None

    def standing(self, job: str) -> Standing:
        """How a job stands."""
        row = self._file.first(f"SELECT {_STANDING} FROM standing WHERE job = ?", (job,))
        return Standing._make((*row[:-1], bool(row[-1]))) if row else Standing()

    def put_standing(self, job: str, standing: Standing) -> None:
        """Keep that."""
        self._file.run(
            f"INSERT OR REPLACE INTO standing (job, {_STANDING}) VALUES (?, ?, ?, ?, ?, ?, ?, ?)", (job, *standing)
        )

    def held_by(self, device: str) -> tuple[str, ...]:
        """The jobs a device holds."""
        rows = self._file.run(
            "SELECT job FROM standing WHERE holder = ? AND holder <> ? AND (is_issued = 0 OR fence > 0) ORDER BY job",
            (device, OFFICE),
        )
        return tuple(row[0] for row in rows)

    def put_matter(self, matter: Matter) -> None:
        """Keep something to settle, in the place of what was kept under the same key."""
        values = (str(matter.kind), *matter[1:])
        self._file.run(
            f"INSERT INTO matter ({_MATTER}) VALUES (?, ?, ?, ?, ?, ?, ?) ON CONFLICT (kind, job, device, other)"
            " DO UPDATE SET first = excluded.first, last = excluded.last, is_settled = excluded.is_settled",
            values,
        )

    def matter(self, key: tuple[str, str, str, str]) -> Matter | None:
        """What was kept under a key."""
        sought = f"SELECT {_MATTER} FROM matter WHERE kind = ? AND job = ? AND device = ? AND other = ?"
        row = self._file.first(sought, (str(key[0]), *key[1:]))
        return _matter(row) if row else None

    def matters(self) -> tuple[Matter, ...]:
        """What is not settled, the oldest first."""
        return tuple(map(_matter, self._file.run(f"SELECT {_MATTER} FROM matter WHERE is_settled = 0 ORDER BY seq")))

    def _mark(self, device: str, counter: int, *, done: bool) -> None:
        self._file.run("UPDATE operation SET is_done = ? WHERE device = ? AND counter = ?", (done, device, counter))


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
