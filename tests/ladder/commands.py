"""Whole commands on a log, each in a process of its own: how long they take by the clock and of the processor, and their memory at its peak."""

import os
import subprocess
import sys
import time
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import NamedTuple

from storage.log_file import FILE_NAME
from tests.ladder.many_jobs import fill

_RAW = (
    "import sqlite3, sys; log = sqlite3.connect(sys.argv[1])\n"
    "for row in log.execute('SELECT * FROM duty_day JOIN job ON job.id = job_id ORDER BY by, job_id'): pass"
)

_MEASURING = (
    "import resource, subprocess, sys; subprocess.call(sys.argv[1:], stderr=subprocess.DEVNULL)\n"
    "used = resource.getrusage(resource.RUSAGE_CHILDREN)\n"
    "print(used.ru_utime + used.ru_stime, used.ru_maxrss, file=sys.stderr)"
)


class Run(NamedTuple):
    """One process from its start to its end."""

    seconds: float
    worked: float
    """Seconds of the processor, which a busy machine adds less to."""
    megabytes: float
    said: str

    def __str__(self) -> str:
        return f"{self.seconds:.2f} s ({self.worked:.2f} s of the processor), {self.megabytes:.0f} MB"


def commanded(folder: Path, counts: list[int]) -> Iterator[str]:
    """What each command took at each size, a line each; raw SQLite over the same rows beside them."""
    yield f"{datetime.now(UTC):%Y-%m-%d}, load on the machine {', '.join(f'{each:.1f}' for each in os.getloadavg())}."
    for count in counts:
        home = folder / str(count)
        if not home.exists():
            fill(home, count)
        page = ran([sys.executable, "-P", "-m", "tests.ladder.first_page", str(home)], home)
        yield f"- {count:,} jobs: due, first page: {float(page.said):.3f} s of {page}"
        raw = ran([sys.executable, "-P", "-c", _RAW, str(home / FILE_NAME)], home)
        yield f"- {count:,} jobs: every due day read by raw SQLite: {raw}"
        for words in ("due --from 2026-03-01 --until 2026-03-31", "due", "due --json", "hand-over --all"):
            took = ran([sys.executable, "-P", "-m", "tui", *words.split()], home)
            yield f"- {count:,} jobs: {words}: {took}"


def ran(command: list[str], home: Path) -> Run:
    """Run a command on a log, and what it took; the memory is that of the largest process, its children among them."""
    environment = os.environ | {"OHMFOLIO_HOME": str(home), "PYTHONPATH": str(Path(__file__).parents[2])}
    began = time.perf_counter()
    # A process that is started counts for as large as the one that starts it, so a small one stands between.
    typed = [sys.executable, "-I", "-c", _MEASURING, *command]
    with subprocess.Popen(typed, env=environment, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        assert process.stdout
        assert process.stderr
        said = b""
        while more := process.stdout.read(1 << 16):
            said = (said + more)[-4096:]
        worked, kilobytes = map(float, process.stderr.read().split())
    return Run(time.perf_counter() - began, worked, kilobytes / 1024, said.decode(errors="replace").strip())
