"""One and the same log on PostgreSQL and in SQLite, measured in one run: medians, 95th percentiles, and their ratio."""

import os
import platform
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime
from functools import partial
from pathlib import Path

from storage.driver import sqlite3
from storage.log_file import FILE_NAME
from storage.moving.folder_end import FolderEnd
from storage.moving.parts import DEVICE, PAPER, PARTS, STATES, every_row
from storage.moving.server_place import ServerPlace
from storage.postgres.postgres_job_log import PostgresJobLog
from storage.postgres.server_address import ServerAddress
from storage.sqlite_job_log import SqliteJobLog
from tests.ladder.crowd import crowded
from tests.ladder.many_jobs import fill
from tests.ladder.rungs import Opens, measured
from tests.storage.database_server import running

_SETTINGS = "-c listen_addresses= -c shared_buffers=512MB -c max_connections=120 -c max_wal_size=4GB"
"""As an office would run it: every commit reaches the disk."""
_WRITERS = 32


def side_by_side(folder: Path, counts: list[int]) -> Iterator[str]:
    """The table of every size, once it is measured."""
    yield f"{datetime.now(UTC):%Y-%m-%d}, {os.cpu_count()} cores, {platform.machine()}, Python {platform.python_version()},"
    yield f"SQLite {sqlite3.sqlite_version}; load on the machine {', '.join(f'{each:.1f}' for each in os.getloadavg())}."
    yield "Milliseconds: median / 95th percentile (95th percentile of this process's own time, without waiting)."
    for count in counts:
        home = folder / str(count)
        if not home.exists():
            fill(home, count)
        with running(_SETTINGS) as server:
            address = server.address("postgres")
            began = datetime.now(UTC)
            _copy(home, address)
            yield f"\n{count:,} jobs, copied to the server in {(datetime.now(UTC) - began).total_seconds():.0f} s.\n"
            yield from _compared(count, partial(SqliteJobLog.open, home), partial(PostgresJobLog.open, address))


def _copy(home: Path, address: ServerAddress) -> None:
    """As a move does; made-up papers have no PDF, so it is not proved."""
    place = ServerPlace(address)
    with closing(sqlite3.connect(home / FILE_NAME)) as connection, place.filled("ladder", datetime.now(UTC)) as new:
        old = FolderEnd(home, connection)
        for part in PARTS:
            if part is not PAPER:
                for rows in every_row(old, part, None if part is DEVICE else new.last(part)):
                    new.add(part, rows)
        for rows in every_row(old, STATES):
            new.set_states(rows)
        new.finish()
    place.ready()


def _compared(count: int, folder: Opens, server: Opens) -> Iterator[str]:
    first, second = measured(folder, count), measured(server, count)
    yield "| | SQLite | PostgreSQL | ratio of medians | of 95th percentiles |"
    yield "|---|---|---|---|---|"
    for name, theirs in second.items():
        ours = first[name]
        yield f"| {name} | {ours} | {theirs} | {theirs.median / ours.median:.1f} | {theirs.p95 / ours.p95:.1f} |"
    yield ""
    for name, opens in (("SQLite", folder), ("PostgreSQL", server)):
        paced, edits, lost = crowded(opens, count, seconds=20, a_second=1, writers=_WRITERS, apart=True)
        yield (
            f"- {name}, {_WRITERS} writers at one edit a second, each on a draft of its own: median {paced.median:.1f} ms,"
            f" p95 {paced.p95:.1f} ms, longest {paced.longest:.0f} ms, {edits} edits, {lost} lost"
        )
