"""What a job log asks of its server: one transaction a thread, and lines that broke taken up again."""

import threading
from collections.abc import Callable, Generator, Sequence
from contextlib import contextmanager, suppress
from typing import Any, TypeVar

import psycopg
from psycopg import Connection

from storage.postgres.server_address import ServerAddress
from storage.postgres.server_lines import Row, ServerLines
from storage.postgres.transaction import Asked, Transaction, Values, answered

Answer = TypeVar("Answer")


class LogServer:
    """A few connections, shared by the threads of this process.

    Outside a transaction a statement is asked again once where the line broke, for it only reads. Inside one nothing is
    asked again: what was begun is not kept, and who asked is told so.
    """

    def __init__(
        self, address: ServerAddress, first: Connection[Row] | None = None, *, takes_long: bool = False
    ) -> None:
        """Nothing is asked of the server before a statement is. `takes_long` is for who reads all of a log."""
        self.address = address
        self._here = threading.local()
        self._lines = ServerLines(address, first, takes_long=takes_long)

    @property
    def in_transaction(self) -> bool:
        """This thread has a transaction open."""
        return self._mine is not None

    @property
    def _mine(self) -> Transaction | None:
        return getattr(self._here, "transaction", None)

    def run(self, statement: str, values: Values = ()) -> list[Row]:
        """Run a statement; its whole answer."""
        if mine := self._mine:
            return mine.run(statement, values)
        return self.answers((statement, values))[0]

    def first(self, statement: str, values: Values = ()) -> Row | None:
        """The first row of an answer; None where there is none."""
        rows = self.run(statement, values)
        return rows[0] if rows else None

    def answers(self, *asked: Asked) -> list[list[Row]]:
        """The answers of several statements, in one journey to the server."""
        if mine := self._mine:
            return mine.sent(asked)
        return self._asked_again(lambda connection: answered(connection, self.address, asked))

    def run_all(self, statements: Sequence[Asked]) -> None:
        """Run statements whose answers nobody needs. They go with the next that is asked. Call it inside a transaction."""
        mine = self._mine
        assert mine
        mine.later(statements)

    @property
    def waiting(self) -> Sequence[tuple[str, tuple[Any, ...]]]:
        """What is to be run last in the transaction of this thread."""
        return mine.last if (mine := self._mine) else ()

    def run_last(self, statement: str, values: tuple[Any, ...]) -> None:
        """Run a statement, whose answer nobody needs, as one of the last of the transaction that is open."""
        mine = self._mine
        assert mine
        mine.last.append((statement, values))

    def run_what_is_last(self) -> None:
        """Run now what waits for the end of the transaction, where one is open."""
        if mine := self._mine:
            mine.run_what_is_last()

    @contextmanager
    def transaction(self, *first: Asked, ahead: Sequence[Asked] = ()) -> Generator[list[list[Row]]]:
        """One transaction of this thread, which begins with some statements; their answers, in one journey.

        All of it is kept when it ends, or nothing. What is asked `ahead` goes with that journey, and answers the same
        statement later on, unless something was written meanwhile to what it reads.
        """
        more = [each for each in ahead if each not in first]
        connection, answers = self._begun([*first, *more])
        known = [(each, answers[first.index(each)]) for each in ahead if each in first]
        known += zip(more, answers[len(first) :], strict=True)
        self._here.transaction = mine = Transaction(connection, self.address, known)
        try:
            yield answers[: len(first)]
            mine.run_what_is_last()
            mine.commit()
        except BaseException:
            with suppress(psycopg.Error):
                connection.execute(b"ROLLBACK")
            raise
        finally:
            self._here.transaction = None
            self._lines.given_back(connection)

    def close(self) -> None:
        """Let go of the connections; once is enough."""
        self._lines.close()

    def _begun(self, first: Sequence[Asked]) -> tuple[Connection[Row], list[list[Row]]]:
        def begin(connection: Connection[Row]) -> tuple[Connection[Row], list[list[Row]]]:
            return connection, answered(connection, self.address, [("BEGIN", ()), *first])[1:]

        return self._asked_again(begin, keeps=True)

    def _asked_again(self, ask: Callable[[Connection[Row]], Answer], *, keeps: bool = False) -> Answer:
        """Ask by a connection; once more by another where the line turns out to have been cut."""
        for is_last in (False, True):
            connection = self._lines.taken()
            try:
                answer = ask(connection)
            except BaseException:
                was_lost = connection.closed
                if keeps:
                    with suppress(psycopg.Error):
                        connection.execute(b"ROLLBACK")
                self._lines.given_back(connection)
                if is_last or not was_lost:
                    raise
                self._lines.drop_free()
                continue
            if not keeps:
                self._lines.given_back(connection)
            return answer
        raise AssertionError


def askable(number: str) -> str:
    """A number as a server can be asked for it; it knows no text with a NUL in it."""
    return "" if "\0" in number else number
