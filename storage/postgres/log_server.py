"""The connections to the server of a job log: settings, one transaction a thread, and lines that broke taken up again."""

import logging
import threading
from collections.abc import Callable, Generator, Mapping, Sequence
from contextlib import contextmanager, suppress
from typing import Any, TypeVar

import psycopg
from psycopg import Connection
from psycopg.conninfo import conninfo_to_dict, make_conninfo
from psycopg.pq import PipelineStatus, TransactionStatus
from psycopg_pool import ConnectionPool, PoolTimeout

from domain.log.job_log import JobLogError
from storage.postgres.server_address import ServerAddress
from storage.postgres.server_errors import as_server_error, cannot_connect, unknown_if_kept

_PATIENCE, _SOON = 5.0, 0.3
"""Seconds that a person waits for a line to the server before being told, and before it is asked why."""
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

_ENDED = "57P0"
"""How the codes begin by which a server ends a line: 57P01 to 57P05 (Appendix A of PostgreSQL's documentation)."""

Row = tuple[Any, ...]
Values = Mapping[str, Any] | Sequence[Any]
Answer = TypeVar("Answer")

# It tells of every attempt to connect, on the terminal that the screens are on.
logging.getLogger("psycopg.pool").addHandler(logging.NullHandler())
logging.getLogger("psycopg.pool").propagate = False
logging.getLogger("psycopg").addHandler(logging.NullHandler())


class LogServer:
    """A few connections, shared by the threads of this process.

    Outside a transaction a statement is asked again once where the line broke, for it only reads. Inside one nothing is
    asked again: what was begun is not kept, and who asked is told so.
    """

    def __init__(self, address: ServerAddress, *, takes_long: bool = False) -> None:
        """Nothing is asked of the server before a statement is. `takes_long` is for who reads all of a log."""
        self.address = address
        self._here = threading.local()
        self._pool = ConnectionPool[Connection[Row]](
            conninfo_of(address, takes_long=takes_long),
            kwargs={"autocommit": True},
            min_size=1,
            max_size=4,
            num_workers=1,
            timeout=_PATIENCE,
            reconnect_timeout=_PATIENCE,
            open=True,
        )

    @property
    def in_transaction(self) -> bool:
        """This thread has a transaction open."""
        return self._mine is not None

    @property
    def _mine(self) -> Connection[Row] | None:
        return getattr(self._here, "connection", None)

    def run(self, statement: str, values: Values = ()) -> list[Row]:
        """Run a statement; its whole answer."""
        if mine := self._mine:
            return self._answered(mine, statement, values)
        return self._asked_again(lambda connection: self._answered(connection, statement, values))

    def first(self, statement: str, values: Values = ()) -> Row | None:
        """The first row of an answer; None where there is none."""
        rows = self.run(statement, values)
        return rows[0] if rows else None

    def run_all(self, statements: Sequence[tuple[str, Values]]) -> None:
        """Run statements whose answers nobody needs, in one journey to the server. Call it inside a transaction."""
        mine = self._mine
        assert mine
        try:
            with mine.pipeline():
                for statement, values in statements:
                    mine.execute(statement.encode(), values)
        except (psycopg.Error, UnicodeError) as trouble:
            raise as_server_error(trouble, self.address, lost=_is_lost(mine, trouble)) from trouble

    @property
    def waiting(self) -> Sequence[tuple[str, tuple[Any, ...]]]:
        """What is to be run last in the transaction of this thread."""
        return self._here.last if self._mine else ()

    def run_last(self, statement: str, values: tuple[Any, ...]) -> None:
        """Run a statement, whose answer nobody needs, as one of the last of the transaction that is open."""
        self._here.last.append((statement, values))

    def run_what_is_last(self) -> None:
        """Run now what waits for the end of the transaction, where one is open."""
        if waiting := self.waiting:
            self.run_all(waiting)
            self._here.last = []

    @contextmanager
    def transaction(self, *first: tuple[str, Values]) -> Generator[list[list[Row]]]:
        """One transaction of this thread, which begins with some statements; their answers, in one journey.

        All of it is kept when it ends, or nothing.
        """
        connection, answers = self._begun(first)
        self._here.connection, self._here.last = connection, []
        try:
            yield answers
            self.run_what_is_last()
        except BaseException:
            with suppress(psycopg.Error):
                connection.execute(b"ROLLBACK")
            raise
        else:
            self._commit(connection)
        finally:
            self._here.connection = None
            self._pool.putconn(connection)

    def close(self) -> None:
        """Let go of the connections; once is enough."""
        self._pool.close(timeout=1.0)

    def _begun(self, first: Sequence[tuple[str, Values]]) -> tuple[Connection[Row], list[list[Row]]]:
        def begin(connection: Connection[Row]) -> tuple[Connection[Row], list[list[Row]]]:
            try:
                with connection.pipeline():
                    connection.execute(b"BEGIN")
                    asked = [connection.execute(statement.encode(), values) for statement, values in first]
                return connection, [cursor.fetchall() for cursor in asked]
            except (psycopg.Error, UnicodeError) as trouble:
                raise as_server_error(trouble, self.address, lost=_is_lost(connection, trouble)) from trouble

        return self._asked_again(begin, keeps=True)

    def _commit(self, connection: Connection[Row]) -> None:
        # A transaction in which a statement failed ends in a rollback that looks like success.
        if connection.info.transaction_status is not TransactionStatus.INTRANS:
            with suppress(psycopg.Error):
                connection.execute(b"ROLLBACK")
            raise as_server_error(psycopg.OperationalError(), self.address, lost=connection.closed)
        try:
            connection.execute(b"COMMIT")
        except psycopg.Error as trouble:
            if _is_lost(connection, trouble):
                raise unknown_if_kept(self.address) from trouble
            raise as_server_error(trouble, self.address) from trouble

    def _asked_again(self, ask: Callable[[Connection[Row]], Answer], *, keeps: bool = False) -> Answer:
        """Ask by a connection; once more by another where the line turns out to have been cut."""
        for is_last in (False, True):
            connection = self._taken()
            try:
                answer = ask(connection)
            except BaseException:
                was_lost = connection.closed
                self._pool.putconn(connection)
                if is_last or not was_lost:
                    raise
                # The others may have been cut at the same moment.
                self._pool.check()
                continue
            if not keeps:
                self._pool.putconn(connection)
            return answer
        raise AssertionError

    def _taken(self) -> Connection[Row]:
        try:
            return self._pool.getconn(_SOON)
        except PoolTimeout:
            # The pool does not tell why, and waits where nobody is there to answer.
            with connected_to(self.address):
                pass
        try:
            return self._pool.getconn()
        except PoolTimeout:
            raise as_server_error(psycopg.OperationalError(), self.address, lost=True) from None

    def _answered(self, connection: Connection[Row], statement: str, values: Values) -> list[Row]:
        try:
            cursor = connection.execute(statement.encode(), values)
            return cursor.fetchall() if cursor.description else []
        except (psycopg.Error, UnicodeError) as trouble:
            raise as_server_error(trouble, self.address, lost=_is_lost(connection, trouble)) from trouble


def _is_lost(connection: Connection[Row], trouble: Exception) -> bool:
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
    try:
        connection: Connection[Row] = psycopg.connect(conninfo_of(address), autocommit=True)
    except (psycopg.Error, UnicodeError) as trouble:
        raise cannot_connect(trouble, address) from None
    try:
        yield connection
    except psycopg.Error as trouble:
        raise as_server_error(trouble, address, lost=connection.closed) from trouble
    finally:
        connection.close()


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


def askable(number: str) -> str:
    """A number as a server can be asked for it; it knows no text with a NUL in it."""
    return "" if "\0" in number else number
