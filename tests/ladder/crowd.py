"""Many programs writing to one log at once: at the pace of people, or as fast as they can."""

import json
import os
import random
import time
from contextlib import suppress
from datetime import UTC, datetime
from typing import NamedTuple

from domain.editing.commands import Enter
from domain.log.job_log import JobLogError
from domain.place import Place
from tests.ladder.rungs import Opens
from tests.ladder.stopwatch import Times, times_of
from tests.storage.children import ended, forked

WRITERS = 8
_ALL_ARE_THERE = 3.0
"""Seconds in which every writer has opened the log."""


class Crowd(NamedTuple):
    """What became of the edits of all writers."""

    times: Times
    edits: int
    """Acknowledged."""
    lost: int
    """Acknowledged, and not there."""
    refused: int
    """Not acknowledged: what a person was told instead."""
    first_refusal: str


def crowded(
    opens: Opens, count: int, *, seconds: float, a_second: float, writers: int = WRITERS, apart: bool = False
) -> Crowd:
    """Every writer edits one and the same draft, or each one of its own; at a pace, at a random moment of each turn."""
    numbers = [f"A-{count - (at if apart else 0):04d}" for at in range(writers)]
    log = opens()
    before = sum(map(log.version, set(numbers)))
    log.close()
    pipes = [os.pipe() for _ in range(writers)]
    start = time.monotonic() + (_ALL_ARE_THERE if a_second else 0)
    children = [
        forked(lambda at=at, told=told: _write(opens, numbers[at], at, told, start, seconds, a_second))
        for at, (_, told) in enumerate(pipes)
    ]
    taken: list[float] = []
    refused: list[str] = []
    unmeasured = 0
    for hears, told in pipes:
        os.close(told)
        with os.fdopen(hears) as answers:
            times, refusals, first = json.loads(answers.read())
        taken += times
        refused += refusals
        unmeasured += first
    assert [ended(child) for child in children] == [0] * writers
    log = opens()
    kept = sum(map(log.version, set(numbers))) - before - unmeasured
    log.close()
    return Crowd(times_of(taken), len(taken), max(0, len(taken) - kept), len(refused), next(iter(refused), ""))


def _write(opens: Opens, number: str, writer: int, told: int, start: float, seconds: float, a_second: float) -> None:
    log, chance = opens(), random.Random(writer)
    who, first = f"w{writer}", 0
    if a_second:
        # Whoever works at the pace of people has worked before.
        with suppress(JobLogError):
            log.edit(number, _contact(f"{who} {chance.random()}"), who=who, at=datetime.now(UTC))
            first = 1
    taken: list[float] = []
    refused: list[str] = []
    start, turn = max(start, time.monotonic()), 0
    while True:
        if a_second:
            time.sleep(max(0.0, start + (turn + chance.random()) / a_second - time.monotonic()))
        if time.monotonic() - start >= seconds:
            break
        command = _contact(f"{who} {turn} {chance.random()}")
        at, turn = time.perf_counter(), turn + 1
        try:
            log.edit(number, command, who=who, at=datetime.now(UTC))
        except JobLogError as error:
            refused.append(str(error))
        else:
            taken.append((time.perf_counter() - at) * 1000)
    log.close()
    with os.fdopen(told, "w") as answers:
        json.dump((taken, refused, first), answers)


def _contact(text: str) -> Enter:
    return Enter(place=Place(section="client", box="contact"), text=text)
