"""A PostgreSQL server of the tests' own: in a temporary folder, on a socket in it, gone afterwards."""

import os
import select
import shutil
import signal
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

import psycopg

from storage.postgres.server_address import ServerAddress

OWNER = "firm"
NOT_THERE = "no PostgreSQL server here: apt-get install postgresql"
_PLACES = ("/usr/lib/postgresql/*/bin/initdb", "/usr/local/bin/initdb", "/usr/local/pgsql/bin/initdb")
_NOBODY = "nobody"
"""The server refuses to run as the superuser."""
_SETTINGS = "-c listen_addresses= -c fsync=off -c full_page_writes=off -c shared_buffers=32MB -c max_connections=60"
_SETTINGS += " -c wal_level=minimal -c max_wal_senders=0 -c log_min_messages=fatal -c autovacuum_naptime=600"


class DatabaseServer:
    """Started when it is first needed. The folder is both the cluster and the socket's."""

    def __init__(self, folder: Path, programs: Path, settings: str = _SETTINGS) -> None:
        self._folder = folder
        self._programs = programs
        self._settings = settings

    def start(self) -> None:
        """Run it, and wait until it answers."""
        options = f"{self._settings} -k {self._folder}"
        typed = [
            self._programs / "pg_ctl",
            "-D",
            self._data,
            "-o",
            options,
            "-l",
            self._folder / "said",
            "-w",
            "-t",
            "300",
            "start",
        ]
        subprocess.run(typed, check=True, stdout=subprocess.DEVNULL, **_as_whom())

    def stop(self, mode: str = "immediate") -> None:
        """End it at once; `fast` has it write down first what it holds."""
        typed = [self._programs / "pg_ctl", "-D", self._data, "-m", mode, "-w", "-t", "300", "stop"]
        subprocess.run(typed, check=False, capture_output=True, **_as_whom())

    def kill(self) -> None:
        """Kill it with all its processes, as if the power had gone, and wait until they are no more."""
        first = int((self._data / "postmaster.pid").read_text().split()[0])
        others = Path(f"/proc/{first}/task/{first}/children").read_text().split()
        ends = []
        for process in (first, *map(int, others)):
            with suppress(ProcessLookupError):
                ends.append(os.pidfd_open(process))
                os.kill(process, signal.SIGKILL)
        for end in ends:
            select.select([end], [], [])
            os.close(end)
        # Where nobody waits for orphans, their numbers stay taken, and the next start would think it not the first.
        for left in (self._data / "postmaster.pid", self._folder / ".s.PGSQL.5432.lock"):
            left.unlink(missing_ok=True)

    @property
    def _data(self) -> Path:
        return self._folder / "data"

    def address(self, database: str, schema: str = "ohmfolio", person: str = OWNER) -> ServerAddress:
        """Where a log of it is."""
        return ServerAddress(f"postgresql://{person}@/{database}?host={self._folder}", schema)

    def tell(self, statement: str, database: str = "postgres") -> None:
        """Have it do something as its owner."""
        with psycopg.connect(self.address(database).url, autocommit=True) as connection:
            connection.execute(statement)

    def asked(self, statement: str) -> list[tuple]:
        """What it answers its owner."""
        with psycopg.connect(self.address("postgres").url, autocommit=True) as connection:
            return connection.execute(statement).fetchall()


def programs() -> Path | None:
    """The folder of the server's programs; None where there are none."""
    found = [path for place in _PLACES for path in sorted(Path("/").glob(place.removeprefix("/")))]
    named = shutil.which("initdb")
    return found[-1].resolve().parent if found else Path(named).resolve().parent if named else None


@contextmanager
def running(settings: str = _SETTINGS) -> Iterator[DatabaseServer]:
    """A server that is stopped and removed at the end."""
    # The path of a socket may have some hundred letters and no more.
    folder = Path(tempfile.mkdtemp(prefix="ohm", dir=os.environ.get("PYTEST_DEBUG_TEMPROOT", "/tmp")))
    try:
        server = _made_in(folder, settings)
        server.start()
        try:
            yield server
        finally:
            server.stop()
    finally:
        shutil.rmtree(folder, ignore_errors=True)


@contextmanager
def staying(folder: Path, settings: str) -> Iterator[DatabaseServer]:
    """A server whose folder stays, with all that is in it, for the next time."""
    folder.mkdir(parents=True, exist_ok=True)
    server = _made_in(folder, settings)
    server.start()
    try:
        yield server
    finally:
        server.stop(mode="fast")


def _made_in(folder: Path, settings: str) -> DatabaseServer:
    at = programs()
    assert at
    if os.geteuid() == 0:
        shutil.chown(folder, _NOBODY)
    if not (folder / "data").exists():
        typed = [at / "initdb", "-D", folder / "data", "-U", OWNER, "-A", "trust", "-N", "-E", "UTF8", "--locale=C"]
        subprocess.run(typed, check=True, stdout=subprocess.DEVNULL, **_as_whom())
    return DatabaseServer(folder, at, settings)


def _as_whom() -> dict:
    return {"user": _NOBODY, "group": "nogroup"} if os.geteuid() == 0 else {}


def emptied(address: ServerAddress) -> None:
    """Take everything out of a log, past what protects it: quicker by far than another log."""
    with psycopg.connect(address.url, autocommit=True) as connection:
        connection.execute(f"SET search_path = {address.schema}")
        connection.execute("SET session_replication_role = replica")
        tables = connection.execute(
            "SELECT tablename FROM pg_tables WHERE schemaname = %s", (address.schema,)
        ).fetchall()
        sequences = connection.execute(
            "SELECT sequencename FROM pg_sequences WHERE schemaname = %s AND last_value IS NOT NULL", (address.schema,)
        ).fetchall()
        with connection.pipeline():
            for (table,) in tables:
                if table not in {"layout", "device"}:
                    connection.execute(f"DELETE FROM {table}")
            for (sequence,) in sequences:
                connection.execute(f"ALTER SEQUENCE {sequence} RESTART")
            connection.execute("DELETE FROM device WHERE NOT is_here")
            connection.execute("UPDATE device SET next_number = 1, prefix = 'A'")


def saved(address: ServerAddress) -> dict[str, bytes]:
    """All rows of a log, as whoever looks after a server keeps them."""
    with psycopg.connect(address.url, autocommit=True) as connection:
        connection.execute(f"SET search_path = {address.schema}")
        found = connection.execute(
            "SELECT tablename FROM pg_tables WHERE schemaname = %s", (address.schema,)
        ).fetchall()
        kept = {}
        for (table,) in found:
            with connection.cursor().copy(f"COPY {table} TO STDOUT") as rows:
                kept[table] = b"".join(map(bytes, rows))
        return kept


def put_back(address: ServerAddress, kept: dict[str, bytes]) -> None:
    """Have a log hold what was saved of it, past what protects it."""
    with psycopg.connect(address.url, autocommit=True) as connection:
        connection.execute(f"SET search_path = {address.schema}")
        connection.execute("SET session_replication_role = replica")
        for table, rows in kept.items():
            connection.execute(f"DELETE FROM {table}")
            with connection.cursor().copy(f"COPY {table} FROM STDIN") as into:
                into.write(rows)


def told(statement: str, address: ServerAddress) -> str:
    """What the server answers to a statement of its owner; "" where it does it."""
    with psycopg.connect(address.url, autocommit=True) as connection:
        connection.execute(f"SET search_path = {address.schema}")
        try:
            connection.execute(statement)
        except psycopg.Error as refused:
            return str(refused)
    return ""
