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
        page = _run([sys.executable, "-P", "-m", "tests.ladder.first_page", str(home)], home)
        yield f"- {count:,} jobs: due, first page: {float(page.said):.3f} s of {page}"
        raw = _run([sys.executable, "-P", "-c", _RAW, str(home / FILE_NAME)], home)
        yield f"- {count:,} jobs: every due day read by raw SQLite: {raw}"
        for words in ("due --from 2026-03-01 --until 2026-03-31", "due", "due --json", "hand-over --all"):
            took = _run([sys.executable, "-P", "-m", "tui", *words.split()], home)
            yield f"- {count:,} jobs: {words}: {took}"


def _run(command: list[str], home: Path) -> Run:
    environment = os.environ | {"OHMFOLIO_HOME": str(home), "PYTHONPATH": str(Path(__file__).parents[2])}
    began = time.perf_counter()
    with subprocess.Popen(command, env=environment, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL) as process:
        assert process.stdout
        said = b""
        while more := process.stdout.read(1 << 16):
            said = (said + more)[-4096:]
        _, _, used = os.wait4(process.pid, 0)
        process.returncode = 0
    worked = used.ru_utime + used.ru_stime
    return Run(time.perf_counter() - began, worked, used.ru_maxrss / 1024, said.decode(errors="replace").strip())
