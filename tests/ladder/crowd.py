"""Eight programs writing to one log at once: at the pace of eight engineers, and as fast as they can."""

import json
import os
import time
from datetime import UTC, datetime

from domain.editing.commands import Enter
from domain.log.job_log import JobLogError
from domain.place import Place
from tests.ladder.rungs import Opens
from tests.ladder.stopwatch import Times, times_of
from tests.storage.children import ended, forked

WRITERS = 8


def crowded(
    opens: Opens, count: int, *, seconds: float, a_second: float, writers: int = WRITERS, apart: bool = False
) -> tuple[Times, int, int]:
    """Every writer edits one and the same draft, or each one of its own; times of all their edits, how many there were, how many were lost."""
    numbers = [f"A-{count - (at if apart else 0):04d}" for at in range(writers)]
    log = opens()
    before = sum(map(log.version, set(numbers)))
    log.close()
    pipes = [os.pipe() for _ in range(writers)]
    children = [
        forked(lambda at=at, told=told: _write(opens, numbers[at], f"w{at}", told, seconds, a_second))
        for at, (_, told) in enumerate(pipes)
    ]
    taken: list[float] = []
    for hears, told in pipes:
        os.close(told)
        with os.fdopen(hears) as answers:
            taken += json.loads(answers.read())
    assert [ended(child) for child in children] == [0] * writers
    log = opens()
    lost = len(taken) - (sum(map(log.version, set(numbers))) - before)
    log.close()
    return times_of(taken), len(taken), lost


def _write(opens: Opens, number: str, who: str, told: int, seconds: float, a_second: float) -> None:
    log = opens()
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
