"""Eight programs writing to one log at once: at the pace of eight engineers, and as fast as they can."""

import json
import os
import time
from datetime import UTC, datetime
from pathlib import Path

from domain.editing.commands import Enter
from domain.log.job_log import JobLogError
from domain.place import Place
from storage.sqlite_job_log import SqliteJobLog
from tests.ladder.stopwatch import Times, times_of
from tests.storage.children import ended, forked

WRITERS = 8


def crowded(home: Path, count: int, *, seconds: float, a_second: float) -> tuple[Times, int, int]:
    """Every writer edits one and the same draft; times of all their edits, how many there were, how many were lost."""
    number = f"A-{count:04d}"
    log = SqliteJobLog.open(home)
    before = log.version(number)
    log.close()
    pipes = [os.pipe() for _ in range(WRITERS)]
    children = [
        forked(lambda at=at, told=told: _write(home, number, f"w{at}", told, seconds, a_second))
        for at, (_, told) in enumerate(pipes)
    ]
    taken: list[float] = []
    for hears, told in pipes:
        os.close(told)
        with os.fdopen(hears) as answers:
            taken += json.loads(answers.read())
    assert [ended(child) for child in children] == [0] * WRITERS
    log = SqliteJobLog.open(home)
    lost = len(taken) - (log.version(number) - before)
    log.close()
    return times_of(taken), len(taken), lost


def _write(home: Path, number: str, who: str, told: int, seconds: float, a_second: float) -> None:
    log = SqliteJobLog.open(home)
    taken: list[float] = []
    began = time.monotonic()
    while (now := time.monotonic()) - began < seconds:
        command = Enter(place=Place(section="client", box="contact"), text=f"{who} {len(taken)}")
        at = time.perf_counter()
        try:
            log.edit(number, command, who=who, at=datetime.now(UTC))
        except JobLogError as error:
            raise AssertionError(f"shown to a person: {error}") from error
        taken.append((time.perf_counter() - at) * 1000)
        if a_second:
            time.sleep(max(0.0, began + len(taken) / a_second - now))
    log.close()
    os.write(told, json.dumps(taken).encode())
    os.close(told)
