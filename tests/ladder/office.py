"""One and the same log on PostgreSQL and in SQLite, measured in one run: medians, 95th percentiles, and their ratio."""

import os
import platform
import shutil
import time
from collections.abc import Iterator
from datetime import UTC, datetime
from functools import partial
from pathlib import Path

from storage.driver import sqlite3
from storage.log_file import FILE_NAME
from storage.postgres.postgres_job_log import PostgresJobLog
from storage.sqlite_job_log import SqliteJobLog
from tests.ladder.crowd import crowded
from tests.ladder.filled_server import fill_server
from tests.ladder.many_jobs import fill
from tests.ladder.rungs import Opens, measured
from tests.storage.database_server import DatabaseServer, staying

SETTINGS = "-c listen_addresses= -c shared_buffers=2GB -c max_connections=120 -c max_wal_size=4GB"
"""As an office would run it: every commit reaches the disk."""
_FILLING = f"{SETTINGS} -c fsync=off -c wal_level=minimal -c max_wal_senders=0 -c autovacuum=off"
_FILLING += " -c default_toast_compression=lz4"
_WRITERS = 32
_WARMED = """
SELECT sum(pg_prewarm(pg_class.oid)) FROM pg_class JOIN pg_namespace ON pg_namespace.oid = relnamespace
WHERE nspname = 'ohmfolio' AND relkind IN ('r', 'i') AND relname ~ '^(job|near|hand|ledger_kind|issued_job|left_off|duty)'
"""
"""What every list and search reads, as it is in a server that has been up since the morning."""


def side_by_side(folder: Path, counts: list[int]) -> Iterator[str]:
    """The table of every size, once it is measured. What it fills first stays in the folder for the next time."""
    for count in counts:
        yield from _made(folder, count)
    yield f"{datetime.now(UTC):%Y-%m-%d}, {os.cpu_count()} cores, {platform.machine()}, Python {platform.python_version()},"
    yield f"SQLite {sqlite3.sqlite_version}; load on the machine {', '.join(f'{each:.1f}' for each in os.getloadavg())}."
    yield "Milliseconds: median / 95th percentile (95th percentile of this process's own time, without waiting)."
    with staying(folder / "server", SETTINGS) as server:
        for count in counts:
            home, address = folder / str(count), server.address(_database(count))
            _warm(home, server, count)
            ((version,),) = server.asked("SHOW server_version")
            yield f"\n{count:,} jobs, PostgreSQL {version}.\n"
            yield from _compared(count, partial(SqliteJobLog.open, home), partial(PostgresJobLog.open, address))


def _database(count: int) -> str:
    return f"jobs_{count}"


def _made(folder: Path, count: int) -> Iterator[str]:
    """The log in a folder and on the server, where they are not there from before."""
    home, part = folder / str(count), folder / f"{count}.part"
    if not home.exists():
        shutil.rmtree(part, ignore_errors=True)
        fill(part, count)
        part.rename(home)
    with staying(folder / "server", _FILLING) as server:
        if (_database(count),) in server.asked("SELECT datname FROM pg_database"):
            return
        began = time.monotonic()
        server.tell("DROP DATABASE IF EXISTS filling")
        server.tell("CREATE DATABASE filling")
        fill_server(home, server.address("filling"))
        server.tell(f"ALTER DATABASE filling RENAME TO {_database(count)}")
        yield f"{count:,} jobs filled into the server in {time.monotonic() - began:.0f} s."


def _warm(home: Path, server: DatabaseServer, count: int) -> None:
    server.tell("CREATE EXTENSION IF NOT EXISTS pg_prewarm", _database(count))
    server.tell(_WARMED, _database(count))
    with (home / FILE_NAME).open("rb") as file:
        while file.read(1 << 24):
            pass


def _compared(count: int, folder: Opens, server: Opens) -> Iterator[str]:
    first, second = measured(folder, count), measured(server, count)
    yield "| | SQLite | PostgreSQL | ratio of medians | of 95th percentiles |"
    yield "|---|---|---|---|---|"
    for name, theirs in second.items():
        ours = first[name]
        yield f"| {name} | {ours} | {theirs} | {theirs.median / ours.median:.1f} | {theirs.p95 / ours.p95:.1f} |"
    yield ""
    for name, opens in (("SQLite", folder), ("PostgreSQL", server)):
        paced = crowded(opens, count, seconds=20, a_second=1, writers=_WRITERS, apart=True)
        told = f" ({paced.first_refusal})" if paced.refused else ""
        yield (
            f"- {name}, {_WRITERS} writers at one edit a second, each on a draft of its own: median"
            f" {paced.times.median:.1f} ms, p95 {paced.times.p95:.1f} ms, longest {paced.times.longest:.0f} ms,"
            f" {paced.edits} edits, {paced.lost} lost, {paced.refused} refused{told}"
        )
