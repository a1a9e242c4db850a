"""A schema of a server, as where a log is moved from or to."""

from collections.abc import Generator
from contextlib import closing, contextmanager
from datetime import datetime
from typing import Any

from psycopg import Connection
from psycopg.sql import SQL, Identifier

from domain.log.job_log import JobLogError
from domain.log.upkeep import CopyProof, LogFault
from storage.moving.server_end import ServerEnd
from storage.postgres.layout import brought_up, has_log
from storage.postgres.log_server import LogServer
from storage.postgres.postgres_reindex import make_found_by
from storage.postgres.postgres_upkeep import faults_of_what_was_kept, proof_of
from storage.postgres.server_address import ServerAddress
from storage.postgres.server_lines import connected_to

_WHOLE = """
LOCK TABLE device, job, draft, edit, folded_trail, issued, note, left_off, register, register_now, ledger, station, operation, holding,
    matter IN SHARE MODE
"""


class ServerPlace:
    """Fulfils `storage.moving.moving.LogSource` and `LogDestination`."""

    def __init__(self, address: ServerAddress) -> None:
        self._address = address

    def whole(self) -> CopyProof:
        """What it holds, where it is whole."""
        with connected_to(self._address) as connection:
            if not has_log(connection, self._address):
                raise JobLogError(f"There is no job log at {self._address}.")
        proof, faults = self.proved()
        for fault in faults:
            raise JobLogError(f"The job log at {self._address} is not whole: {fault.says} Nothing was moved.")
        return proof

    def proved(self) -> tuple[CopyProof, list[LogFault]]:
        """What it holds now, and what is wrong with it."""
        with closing(LogServer(self._address, takes_long=True)) as server:
            return proof_of(server), list(faults_of_what_was_kept(server))

    @contextmanager
    def as_of_now(self) -> Generator[ServerEnd]:
        """The log as it is at this moment, to be read, whoever writes meanwhile."""
        with connected_to(self._address) as connection, connection.transaction():
            connection.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")
            connection.execute("SET LOCAL statement_timeout = 0")
            connection.execute("SET LOCAL idle_in_transaction_session_timeout = 0")
            yield ServerEnd(connection)

    @contextmanager
    def left_open(self, to: str) -> Generator[ServerEnd]:
        """The log, to be read. Whoever wants to write waits, and is told so."""
        with connected_to(self._address) as connection, connection.transaction():
            brought_up(connection, self._address)
            connection.execute(_WHOLE)
            ((before,),) = connection.execute("SELECT moved_to FROM layout").fetchall()
            if before not in {"", to}:
                raise JobLogError(f"The job log at {self._address} was moved to {before} already.")
            connection.execute("SET LOCAL statement_timeout = 0")
            connection.execute("SET LOCAL idle_in_transaction_session_timeout = 0")
            yield ServerEnd(connection)

    def leave(self, to: str) -> None:
        """Say where the log went, by a connection of its own: from then on that stands, whatever becomes of the move."""
        with connected_to(self._address) as connection:
            connection.execute("UPDATE layout SET moved_to = %s", (to,))

    @contextmanager
    def filled(self, mark: str, at: datetime) -> Generator[ServerEnd]:
        """A log that says it is being moved in, to whoever opens it before it is whole."""
        with connected_to(self._address) as connection:
            connection.execute("SET statement_timeout = 0")
            if has_log(connection, self._address):
                self._make_room(connection, mark, at)
            brought_up(connection, self._address)
            connection.execute("UPDATE layout SET moved_from = %s", (mark,))
            yield ServerEnd(connection)

    def ready(self) -> None:
        """Make the words that jobs are found by and the days of their duties, and let people in."""
        with closing(LogServer(self._address, takes_long=True)) as server:
            make_found_by(server)
        with connected_to(self._address) as connection:
            connection.execute("SET statement_timeout = 0")
            connection.execute("ANALYZE")
            connection.execute("UPDATE layout SET moved_from = ''")

    def _make_room(self, connection: Connection[Any], mark: str, at: datetime) -> None:
        ((moved_to, moved_from),) = connection.execute("SELECT moved_to, moved_from FROM layout").fetchall()
        schema = Identifier(self._address.schema)
        if moved_to:
            aside = Identifier(f"{self._address.schema}_{at:%Y%m%d_%H%M%S}")
            connection.execute(SQL("ALTER SCHEMA {} RENAME TO {}").format(schema, aside))
        elif not moved_from:
            raise JobLogError(f"{self._address} holds a job log already, and is not written over. Name another schema.")
        elif moved_from != mark:
            connection.execute(SQL("DROP SCHEMA {} CASCADE").format(schema))
