"""What an office tells its laptops and hears from them, kept on a server. One transaction after the other, as far as a firm goes."""

from collections.abc import Callable
from typing import Any

from storage.exchange_rows import ExchangeRows
from storage.postgres.log_server import LogServer
from storage.postgres.server_lines import Row

TURN = "SELECT pg_advisory_xact_lock(hashtext('ohmfolio firm'), hashtext(current_schema()))"
"""Whoever does anything in the log of a firm counts it for the laptops, so there is one at a time."""
NOBODYS_TURN = "SELECT pg_advisory_xact_lock_shared(hashtext('ohmfolio firm'), hashtext(current_schema()))"
"""Held by everybody while there is no firm, so that it begins while nobody is doing anything."""
IS_OF_FIRM = "SELECT EXISTS (SELECT 1 FROM station)"


class PostgresExchange(ExchangeRows):
    """Fulfils `domain.laptops.exchange_store.ExchangeStore`. Writes are made inside a transaction."""

    def __init__(self, server: LogServer, recorded: Callable[[str, int], object]) -> None:
        """`recorded` is told of each operation of this device, by its device and counter."""
        super().__init__(_OnServer(server), recorded)
        self._server = server

    def take_turn(self) -> None:
        """Have the log alone until the transaction ends."""
        self._server.run(TURN)

    def become(self, device: str, name: str) -> None:
        """Number and record under another name."""
        self._server.run("SELECT go_on_under(%s, %s)", (device, name))


class _OnServer:
    """Fulfils `storage.exchange_rows.Statements`."""

    def __init__(self, server: LogServer) -> None:
        self._server = server

    def run(self, statement: str, values: tuple[Any, ...] = ()) -> list[Row]:
        return self._server.run(statement.replace("?", "%s"), values)

    def run_unanswered(self, statement: str, values: tuple[Any, ...]) -> None:
        self._server.run_all([(statement.replace("?", "%s"), values)])
