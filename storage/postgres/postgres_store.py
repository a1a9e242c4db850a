"""What a job log is kept in, as one schema of a PostgreSQL server."""

import threading
import zlib
from collections.abc import Callable, Generator, Iterable, Mapping, Sequence
from contextlib import contextmanager
from typing import Self

from domain.duties.noted import TOPIC
from domain.editing.undo import Edit
from domain.log.job_log import JobLine, Query, State, TrailLine
from domain.log.log_line import Findable
from domain.log.numbering import Numbering
from domain.log.sought import Sought
from domain.log.store import EditMade
from storage.line_rows import LINE_COLUMNS, line_from, trail_line_from
from storage.postgres.commonness import Commonness
from storage.postgres.layout import ready
from storage.postgres.log_server import LogServer, askable
from storage.postgres.postgres_duties import PostgresDuties, duties_asked
from storage.postgres.postgres_exchange import IS_OF_FIRM, NOBODYS_TURN, TURN, PostgresExchange
from storage.postgres.postgres_jobs import LOCK, PostgresJobs, asked_of
from storage.postgres.postgres_ledger import PostgresLedger
from storage.postgres.postgres_notes import PostgresNotes, notes_asked
from storage.postgres.postgres_papers import PostgresPapers
from storage.postgres.postgres_registers import PostgresRegisters
from storage.postgres.postgres_search import counted, found, held
from storage.postgres.postgres_trails import folded_of, trail_of
from storage.postgres.postgres_vocabulary import near
from storage.postgres.server_address import ServerAddress
from storage.postgres.server_lines import connected, told_as_trouble
from storage.postgres.transaction import Asked

_TURNS = 3
"""A log becomes that of a firm once; who began without knowing it begins again."""
_OPERATION = """
SELECT number, edit.version FROM edit JOIN job ON job.id = job_id WHERE op = %(op)s
UNION ALL SELECT number, 1 FROM folded_trail JOIN job ON job.id = job_id WHERE begun_as = %(op)s
"""
_TURN_OF_OPERATION = "SELECT pg_advisory_xact_lock(hashtextextended(%s, 0))"
_NUMBER = "UPDATE device SET next_number = next_number + 1 WHERE is_here RETURNING prefix, next_number - 1"
_BEGIN_NUMBERS = """
UPDATE device SET prefix = %(prefix)s WHERE is_here AND next_number = 1
    AND NOT EXISTS (SELECT 1 FROM device AS other WHERE other.prefix = %(prefix)s AND NOT other.is_here) RETURNING prefix
"""


class PostgresStore:
    """Fulfils `domain.log.store.Store`. May be used by several threads and several programs at once."""

    def __init__(self, server: LogServer) -> None:
        self._server = server
        self._jobs = PostgresJobs(server)
        self.papers = PostgresPapers(server)
        self.notes = PostgresNotes(server)
        self.registers = PostgresRegisters(server)
        self.duties = PostgresDuties(server)
        self.exchange = PostgresExchange(server, self._record)
        self.stamped: Callable[[Mapping[str, int]], object] = dict
        """Told, once it is kept, how far this device has come with what it tells others."""
        self.never_asked = set[str]()
        """Names of operations that were just made up: nothing can be kept under one."""
        self._here = threading.local()
        self._firm = False
        self._ledger = PostgresLedger(server)
        self._known = Commonness(server)
        self.head, self.had_head = self._ledger.head, self._ledger.had_head
        self.get, self.put = self._jobs.get, self._jobs.put

    @property
    def role(self) -> str:
        """The role of the server that this was opened as."""
        ((role,),) = self._server.run("SELECT session_user::text")
        return role

    @classmethod
    def open(cls, address: ServerAddress) -> Self:
        """The store at an address; begun where there is none and whoever asks may begin one."""
        first = connected(address)
        try:
            with told_as_trouble(first, address):
                ready(first, address)
        except BaseException:
            first.close()
            raise
        return cls(LogServer(address, first))

    @property
    def is_of_firm(self) -> bool:
        """It is the log of an office with laptops."""
        if self._server.in_transaction:
            return self._here.firm
        return self._firm or bool(self._server.run(IS_OF_FIRM)[0][0])

    @contextmanager
    def transaction(self, *numbers: str) -> Generator[None]:
        """One transaction, which begins by locking the jobs it names, in one order for everybody.

        In an office with laptops one follows the other: each thing done is counted, and told in that order.
        """
        asked = [number for number in numbers if "\0" not in number]
        jobs = [(LOCK, (asked,))] if asked else []
        ahead = [each for number in asked for each in _asked_of(number)]
        for _ in range(_TURNS):
            turn, expected = TURN if self._firm else NOBODYS_TURN, self._firm
            recorded: dict[str, int] = {}
            with self._server.transaction((turn, ()), (IS_OF_FIRM, ()), *jobs, ahead=ahead) as (
                _,
                ((self._firm,),),
                *_,
            ):
                if self._firm is expected:
                    self._here.firm, self._here.recorded = expected, recorded
                    yield
                    break
        else:
            raise AssertionError
        if recorded:
            self.stamped(recorded)

    def _record(self, device: str, counter: int) -> None:
        self._here.recorded[device] = counter

    def next_number(self) -> str:
        """Give the next number. Who asks for another waits until this one is kept or given back."""
        ((prefix, counter),) = self._server.run(_NUMBER)
        return f"{prefix}-{counter:04d}"

    def numbering(self) -> Numbering:
        """How jobs are numbered."""
        ((prefix, device, following),) = self._server.run("SELECT prefix, id, next_number FROM device WHERE is_here")
        return Numbering(prefix, device, following - 1)

    def begin_numbers(self, prefix: str) -> bool:
        """Begin numbers with these letters, where none was given."""
        return bool(self._server.run(_BEGIN_NUMBERS, {"prefix": prefix}))

    def operation(self, op: str, number: str = "") -> EditMade | None:
        """The edit that is kept under this name."""
        if op in self.never_asked:
            return None
        if self._server.in_transaction:
            # Somebody may be about to keep it; without a job to lock, nothing else makes the second wait.
            self._server.run(_TURN_OF_OPERATION, (op,))
        if row := self._server.first(_OPERATION, {"op": op}):
            return EditMade(*row)
        before = folded_of(self._server, askable(number)) if number else []
        return next((EditMade(number, each.version) for each in before if each.op == op), None)

    def edits(self, number: str, who: str) -> Iterable[Edit]:
        """What somebody did to a job, oldest first."""
        return self._jobs.edits(number, who)

    def trail(self, number: str, after: int) -> tuple[TrailLine, ...]:
        """The edits of a job that came after a version, oldest first."""
        return tuple(map(trail_line_from, trail_of(self._server, askable(number), after)))

    def line(self, number: str) -> JobLine | None:
        """The line of a job."""
        row = self._server.first(f"SELECT {LINE_COLUMNS} FROM job WHERE number = %s", (askable(number),))
        if row is None:
            return None
        line = line_from(row)
        is_issued = line.state in {State.ISSUED, State.REPLACED}
        return line.model_copy(update={"vouched": not (is_issued and self._ledger.strangers_among([number]))})

    def version(self, number: str) -> int:
        """How many edits a job has had; 0 when there is no such job."""
        row = self._server.first("SELECT version FROM job WHERE number = %s", (askable(number),))
        return row[0] if row else 0

    def find(self, query: Query, sought: Sequence[Sequence[Sought]] = ()) -> tuple[JobLine, ...]:
        """What an understood query asks for, the one touched last first."""
        return tuple(found(self._server, self._known, query, sought))

    def counts(self, things: Sequence[Sequence[Sought]], most: int) -> tuple[int, ...]:
        """How many jobs hold each of these in one of its ways; no more than `most` are counted."""
        return counted(self._server, self._known, things, most)

    def held(self, numbers: Sequence[str]) -> Mapping[str, Findable]:
        """What each of these jobs is found by."""
        return held(self._server, numbers)

    def near(self, words: Sequence[str]) -> Mapping[str, Sequence[str]]:
        """By each word those that share a gap with it."""
        return near(self._server, words)

    def data_version(self) -> int:
        """Another number once anybody may have changed the log; also when another log of the server was changed.

        A counter in the log would have everybody who writes wait for one row, and the newest moment of an edit may be
        kept before an older one. Which transactions are under way tells it without either.
        """
        ((now,),) = self._server.run("SELECT pg_current_snapshot()::text")
        return zlib.crc32(now.encode())

    def refuses(self) -> str:
        """Nothing stands in the way: whoever looks after the server keeps an older log from being put in its place."""
        return ""

    def close(self) -> None:
        """Let go of the connections."""
        self._server.close()


def _asked_of(number: str) -> list[Asked]:
    """What is asked of a job by whoever is about to change it, all of it once it is locked."""
    return [*asked_of(number), notes_asked(TOPIC, [number]), duties_asked(number)]
