"""The connections to the server of a job log: how each is made, and those that are free kept at hand."""

import logging
import threading
from collections.abc import Generator
from contextlib import contextmanager
from typing import Any

import psycopg
from psycopg import Connection
from psycopg.conninfo import conninfo_to_dict, make_conninfo
from psycopg.pq import PipelineStatus, TransactionStatus
from psycopg_pool import ConnectionPool, PoolTimeout

from domain.log.job_log import JobLogError
from storage.postgres.server_address import ServerAddress
from storage.postgres.server_errors import as_server_error, cannot_connect

Row = tuple[Any, ...]

_PATIENCE, _SOON = 5.0, 0.3
"""Seconds that a person waits for a line to the server before being told, and before it is asked why."""
_MOST = 4
_SETTINGS = {
    # What a role of the server's own may have set otherwise would lose what was acknowledged.
    "synchronous_commit": "on",
    "lock_timeout": "10s",
    "statement_timeout": "30s",
    # Whoever froze while holding a turn lets go of it.
    "idle_in_transaction_session_timeout": "60s",
    # Everything that is asked has an index; on a log that grew since it was last analysed the planner does not know.
    "enable_seqscan": "off",
    # A table of one row has none, and is then thought so dear that the server compiles what reads it: a tenth of a second.
    "jit": "off",
    "client_min_messages": "error",
}
_LINE = {
    "connect_timeout": 10,
    "keepalives_idle": 30,
    "keepalives_interval": 10,
    "keepalives_count": 3,
    "tcp_user_timeout": 20_000,
    "application_name": "ohmfolio",
}
_PREPARED_AFTER = 1
"""What is asked a second time is prepared: each edit asks the same score of statements."""
_ENDED = "57P0"
"""How the codes begin by which a server ends a line: 57P01 to 57P05 (Appendix A of PostgreSQL's documentation)."""

# It tells of every attempt to connect, on the terminal that the screens are on.
logging.getLogger("psycopg.pool").addHandler(logging.NullHandler())
logging.getLogger("psycopg.pool").propagate = False
logging.getLogger("psycopg").addHandler(logging.NullHandler())


class ServerLines:
    """A few connections, taken and given back. The first may be one that was made already; more come from a pool.

    What is given back is taken again at once, without asking the pool: that would cost more than many a question.
    """

    def __init__(self, address: ServerAddress, first: Connection[Row] | None = None, *, takes_long: bool) -> None:
        self._address = address
        self._takes_long = takes_long
        self._free = [first] if first else []
        self._made: ConnectionPool[Connection[Row]] | None = None
        self._of_pool = set[Connection[Row]]()
        self._waiting = 0
        self._is_closed = False
        self._turn = threading.Lock()

    def taken(self) -> Connection[Row]:
        """One that nobody else uses; JobLogError where none can be had."""
        with self._turn:
            if self._free:
                return self._free.pop()
            self._waiting += 1
        try:
            return self._from_pool() or self._beside_pool()
        finally:
            with self._turn:
                self._waiting -= 1

    def given_back(self, connection: Connection[Row]) -> None:
        """Have one used again, unless it broke or was left in the middle of something."""
        with self._turn:
            # Whoever waits, waits at the pool.
            is_waited_for = self._waiting and connection in self._of_pool
            is_idle = connection.info.transaction_status is TransactionStatus.IDLE
            is_kept = is_idle and not is_waited_for and not self._is_closed
            if is_kept:
                self._free.append(connection)
        if not is_kept:
            self._let_go(connection)

    def drop_free(self) -> None:
        """Close those that are free: where one was cut, the others may have been at the same moment."""
        with self._turn:
            free, self._free = self._free, []
        for connection in free:
            connection.close()
            self._let_go(connection)
        if self._made:
            self._made.drain()

    def close(self) -> None:
        """Let go of all; once is enough."""
        with self._turn:
            self._is_closed = True
            free, self._free = self._free, []
        for connection in free:
            connection.close()
        if self._made:
            self._made.close(timeout=1.0)

    def _let_go(self, connection: Connection[Row]) -> None:
        if connection in self._of_pool:
            self._of_pool.discard(connection)
            self._pool.putconn(connection)
        else:
            connection.close()

    def _from_pool(self) -> Connection[Row] | None:
        """One of the pool; None where it has none free soon."""
        try:
            connection = self._pool.getconn(_SOON)
        except PoolTimeout:
            return None
        self._of_pool.add(connection)
        return connection

    def _beside_pool(self) -> Connection[Row]:
        """One where the pool has none: the pool tells not why, and waits a while after a server was gone, which is back by now."""
        connection = connected(self._address, takes_long=self._takes_long)
        if len(self._of_pool) < _MOST:
            return connection
        connection.close()
        try:
            connection = self._pool.getconn()
        except PoolTimeout:
            raise as_server_error(psycopg.OperationalError(), self._address, lost=True) from None
        self._of_pool.add(connection)
        return connection

    @property
    def _pool(self) -> ConnectionPool[Connection[Row]]:
        with self._turn:
            if self._made is None:
                self._made = ConnectionPool[Connection[Row]](
                    conninfo_of(self._address, takes_long=self._takes_long),
                    kwargs={"autocommit": True, "prepare_threshold": _PREPARED_AFTER},
                    min_size=1,
                    max_size=_MOST,
                    num_workers=1,
                    timeout=_PATIENCE,
                    reconnect_timeout=_PATIENCE,
                    open=True,
                )
            return self._made


def is_lost(connection: Connection[Row], trouble: Exception) -> bool:
    """Whether the line broke, also where only the server's last word came so far or a pipeline cannot be left.

    Such a line is let go of, and what was begun on it with it.
    """
    ended = str(getattr(trouble, "sqlstate", None) or "").startswith(_ENDED)
    if not connection.closed and (ended or connection.pgconn.pipeline_status != PipelineStatus.OFF):
        connection.close()
    return connection.closed


@contextmanager
def connected_to(address: ServerAddress) -> Generator[Connection[Row]]:
    """A connection that is closed again; JobLogError says why there can be none, or what the server could not do."""
    connection = connected(address)
    try:
        with told_as_trouble(connection, address):
            yield connection
    finally:
        connection.close()


def connected(address: ServerAddress, *, takes_long: bool = False) -> Connection[Row]:
    """A connection; JobLogError says why there can be none."""
    try:
        conninfo = conninfo_of(address, takes_long=takes_long)
        return psycopg.connect(conninfo, autocommit=True, prepare_threshold=_PREPARED_AFTER)
    except (psycopg.Error, UnicodeError) as trouble:
        raise cannot_connect(trouble, address) from None


@contextmanager
def told_as_trouble(connection: Connection[Row], address: ServerAddress) -> Generator[None]:
    """What the server could not do, as JobLogError."""
    try:
        yield
    except psycopg.Error as trouble:
        raise as_server_error(trouble, address, lost=connection.closed) from trouble


def conninfo_of(address: ServerAddress, *, takes_long: bool = False) -> str:
    """What libpq is given: the address, what holds for every session, and where names are looked up."""
    try:
        given = conninfo_to_dict(address.url)
    except psycopg.Error:
        raise JobLogError(f"The address of the job log cannot be used: {address}.") from None
    # Temporary tables come last, so that nobody's stand in for those of the log.
    settings = {**_SETTINGS, "search_path": f"{address.schema},pg_temp"} | (
        {"statement_timeout": "0"} if takes_long else {}
    )
    options = " ".join([str(given.get("options") or ""), *(f"-c {name}={value}" for name, value in settings.items())])
    return make_conninfo("", **{**_LINE, **given, "options": options.strip()})
