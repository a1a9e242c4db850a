"""A transaction at the server of a job log, in few journeys: reads asked for ahead, writes sent together with what comes next."""

import re
from collections.abc import Mapping, Sequence
from typing import Any

import psycopg
from psycopg import Connection
from psycopg.pq import TransactionStatus

from storage.postgres.server_address import ServerAddress
from storage.postgres.server_errors import as_server_error, unknown_if_kept
from storage.postgres.server_lines import Row, is_lost

Values = Mapping[str, Any] | Sequence[Any]
Asked = tuple[str, Values]
"""A statement and its values."""
_ALWAYS_SO = "SELECT id FROM job WHERE number = %s"
"""What is answered alike whatever is written."""
_WAITING_MOST = 500
"""Statements that wait: enough for few journeys, and no more memory than that."""
_READ = re.compile(r"(?:FROM|JOIN) (\w+)")
_WRITTEN = re.compile(r"(?:INSERT INTO|UPDATE|DELETE FROM) (\w+)")


class Transaction:
    """One that was begun. Statements whose answers nobody needs wait for the next that is asked, or for the end.

    What was asked ahead is answered once, and only while nothing was written to the tables that it reads: so it must be
    of rows that are locked, or that nobody else writes without the lock.
    """

    def __init__(
        self,
        connection: Connection[Row],
        address: ServerAddress,
        ahead: Sequence[tuple[Asked, list[Row]]] = (),
    ) -> None:
        self.connection = connection
        self.last: list[tuple[str, tuple[Any, ...]]] = []
        self._address = address
        self._ahead = list(ahead)
        self._waiting: list[Asked] = []

    def run(self, statement: str, values: Values) -> list[Row]:
        """The answer of a statement."""
        for at, (asked, rows) in enumerate(self._ahead):
            if asked == (statement, values):
                del self._ahead[at]
                return rows
        return self.sent([(statement, values)])[-1]

    def later(self, statements: Sequence[Asked]) -> None:
        """Have statements run before any other, or before the end."""
        for statement, _ in statements:
            self._forget_what_changes(statement)
        self._waiting += statements
        if len(self._waiting) > _WAITING_MOST:
            self.sent([])

    def run_what_is_last(self) -> None:
        """Run now what waits for the end."""
        last, self.last = self.last, []
        self._waiting += last
        if self._waiting:
            self.sent([])

    def commit(self) -> None:
        """Keep all of it; UnknownIfKeptError where the answer to that is lost."""
        # A transaction in which a statement failed ends in a rollback that looks like success.
        if self.connection.info.transaction_status is not TransactionStatus.INTRANS:
            raise as_server_error(psycopg.OperationalError(), self._address, lost=self.connection.closed)
        try:
            self.connection.execute(b"COMMIT")
        except psycopg.Error as trouble:
            if is_lost(self.connection, trouble):
                raise unknown_if_kept(self._address) from trouble
            raise as_server_error(trouble, self._address) from trouble

    def sent(self, asked: Sequence[Asked]) -> list[list[Row]]:
        """The answers of what was asked, in one journey with all that waits."""
        for statement, _ in asked:
            self._forget_what_changes(statement)
        before, self._waiting = self._waiting, []
        return answered(self.connection, self._address, [*before, *asked])[len(before) :]

    def _forget_what_changes(self, statement: str) -> None:
        changed = set(_WRITTEN.findall(statement))
        self._ahead = [each for each in self._ahead if changed.isdisjoint(_tables_read(each[0][0]))]


def _tables_read(statement: str) -> list[str]:
    return _READ.findall(statement.replace(_ALWAYS_SO, ""))


def answered(connection: Connection[Row], address: ServerAddress, asked: Sequence[Asked]) -> list[list[Row]]:
    """The answers of statements, in one journey."""
    try:
        if len(asked) == 1:
            ((statement, values),) = asked
            cursors = [connection.execute(statement.encode(), values)]
        else:
            with connection.pipeline():
                cursors = [connection.execute(statement.encode(), values) for statement, values in asked]
        return [cursor.fetchall() if cursor.description else [] for cursor in cursors]
    except (psycopg.Error, UnicodeError) as trouble:
        raise as_server_error(trouble, address, lost=is_lost(connection, trouble)) from trouble
