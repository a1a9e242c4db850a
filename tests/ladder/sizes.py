"""Every measure at every size, as a table."""

import os
import platform
import time
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from storage.driver import sqlite3
from storage.log_file import FILE_NAME
from storage.opening import open_log
from storage.sqlite_job_log import SqliteJobLog
from storage.upkeep.copy_file import proved
from storage.upkeep.records import faults_of_records
from storage.upkeep.sqlite_upkeep import SqliteUpkeep
from tests.ladder.crowd import WRITERS, crowded
from tests.ladder.many_jobs import fill
from tests.ladder.rungs import measured
from tests.ladder.stopwatch import Times

_LARGEST_COPIED = 100_000


def climbed(folder: Path, counts: list[int]) -> Iterator[str]:
    """The table, line by line, once every size is measured; then what was measured at one size only."""
    yield f"{datetime.now(UTC):%Y-%m-%d}, {os.cpu_count()} cores, {platform.machine()}, Python {platform.python_version()},"
    yield f"SQLite {sqlite3.sqlite_version}; load on the machine {', '.join(f'{each:.1f}' for each in os.getloadavg())}."
    yield "Milliseconds: median / 95th percentile (95th percentile of the processor's own time, without waiting)."
    yield ""
    rungs: dict[int, dict[str, Times]] = {}
    after: list[str] = []
    for count in counts:
        home = folder / str(count)
        if not home.exists():
            fill(home, count)
        rungs[count] = measured(lambda home=home: SqliteJobLog.open(home), count)
        after += [f"- {count:,} jobs: {each}" for each in _as_a_whole(home, count)]
    yield f"| | {' | '.join(f'{count:,} jobs' for count in counts)} |"
    yield f"|---|{'---|' * len(counts)}"
    for name in rungs[counts[0]]:
        yield f"| {name} | {' | '.join(str(rungs[count][name]) for count in counts)} |"
    yield ""
    yield from after


def _as_a_whole(home: Path, count: int) -> Iterator[str]:
    yield f"{(home / FILE_NAME).stat().st_size / 1e6:,.0f} MB"
    paced = crowded(lambda: SqliteJobLog.open(home), count, seconds=20, a_second=5)
    yield (
        f"{WRITERS} writers at 5 edits a second on one draft: median {paced.times.median:.1f} ms, p99 {paced.times.p99:.1f} ms,"
        f" longest {paced.times.longest:.0f} ms, {paced.edits} edits, {paced.lost} lost, {paced.refused} refused"
    )
    rushed = crowded(lambda: SqliteJobLog.open(home), count, seconds=10, a_second=0)
    yield (
        f"{WRITERS} writers as fast as they can: {rushed.edits / 10:,.0f} edits a second, longest wait {rushed.times.longest:.0f} ms,"
        f" {rushed.lost} lost, {rushed.refused} refused"
    )
    file = open_log(home)
    began = time.perf_counter()
    assert not list(faults_of_records(file))
    (issued,) = file.first("SELECT count(*) FROM issued") or (0,)
    file.close()
    yield f"records and chain of {issued:,} issued papers verified in {time.perf_counter() - began:.2f} s"
    if count <= _LARGEST_COPIED:
        yield from _copied(home)


def _copied(home: Path) -> Iterator[str]:
    began = time.perf_counter()
    copy = SqliteUpkeep(home).copy_of_the_day(at=datetime.now(UTC), keep=1)
    took = time.perf_counter() - began
    assert copy
    began = time.perf_counter()
    proved(Path(copy.path))
    proof = time.perf_counter() - began
    Path(copy.path).unlink()
    yield f"copied and proved in {took:.1f} s, of which the proof took {proof:.1f} s (the made-up jobs have no papers)"
