"""A log copied to a server as a move does it, part by part: how long each takes."""

import os
import platform
import time
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

from storage.driver import sqlite3
from storage.log_file import FILE_NAME
from storage.moving.folder_end import FolderEnd
from storage.moving.parts import DEVICE, PAPER, PARTS, STATES, digest, every_row
from storage.moving.server_place import ServerPlace
from storage.postgres.server_address import ServerAddress
from tests.ladder.many_jobs import fill
from tests.ladder.office import SETTINGS
from tests.storage.database_server import running


def moved(folder: Path, counts: list[int]) -> Iterator[str]:
    """Seconds of each part, at every size. Made-up papers have no PDF, so none are carried, nor proved before it."""
    yield f"{datetime.now(UTC):%Y-%m-%d}, {os.cpu_count()} cores, {platform.machine()}, Python {platform.python_version()};"
    yield f"load on the machine {', '.join(f'{each:.1f}' for each in os.getloadavg())}."
    for count in counts:
        home = folder / str(count)
        if not home.exists():
            fill(home, count)
        with running(SETTINGS) as server:
            took = _copied(home, server.address("postgres"))
        parts = ", ".join(f"{name} {seconds:.0f}" for name, seconds in took.items())
        yield f"- {count:,} jobs moved to a server in {sum(took.values()):.0f} s: {parts}"


def _copied(home: Path, address: ServerAddress) -> dict[str, float]:
    place, took, began = ServerPlace(address), dict[str, float](), time.monotonic()

    def done(name: str) -> None:
        nonlocal began
        took[name], began = time.monotonic() - began, time.monotonic()

    with closing(sqlite3.connect(home / FILE_NAME)) as connection, place.filled("ladder", datetime.now(UTC)) as new:
        old = FolderEnd(home, connection)
        for part in PARTS:
            if part is not PAPER:
                for rows in every_row(old, part, None if part is DEVICE else new.last(part)):
                    new.add(part, rows)
        for rows in every_row(old, STATES):
            new.set_states(rows)
        done("rows")
        new.finish()
        done("numbers")
        digest(new)
        done("held against each other")
    place.ready()
    done("words and days")
    place.proved()
    done("proved")
    return took
