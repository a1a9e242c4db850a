"""People typing at once, each in a terminal of their own on one host and one log: how soon a key is answered, and what a session takes."""

import os
import platform
import select
import time
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from tests.ladder.stopwatch import Times, times_of
from tests.tui.terminal import KEYS, Terminal

_SECONDS = 60
_A_SECOND = 5
_TYPED = "Rowan Tilley and sons of Fennel Row, Quenby, above the mill "
"""Letters of a box of text; a person's own words, which nothing is computed from."""


def typed_at_once(folder: Path, counts: list[int]) -> Iterator[str]:
    """For each number of people: milliseconds from a key to the first byte of its answer, and private memory of a session."""
    yield f"{datetime.now(UTC):%Y-%m-%d}, {os.cpu_count()} cores, {platform.machine()}, Python {platform.python_version()};"
    yield f"load on the machine {', '.join(f'{each:.1f}' for each in os.getloadavg())}. {_A_SECOND} keys a second each, {_SECONDS} s."
    for people in counts:
        home = folder / f"typists-{people}"
        sessions = [_in_a_box(home) for _ in range(people)]
        try:
            times, unanswered = _timed(sessions)
            private = max(_private(session.pid) for session in sessions)
        finally:
            for session in sessions:
                session.kill()
        yield (
            f"- {people} people: median {times.median:.1f} ms, p95 {times.p95:.1f} ms, longest {times.longest:.0f} ms; "
            f"{unanswered} keys without an answer; a session holds at most {private / 1024:.0f} MB of its own"
        )


def _in_a_box(home: Path) -> Terminal:
    """A session whose cursor is in a box of a new job."""
    session = Terminal(home=home, fresh=True)
    session.until("What was done?")
    for keys, shown in (("A", "own"), ("Y", "How many"), ("1", "earth"), ("Y", "Start"), (KEYS["enter"], "F3")):
        session.send(keys)
        session.until(shown)
    session.fall_silent()
    return session


def _timed(sessions: list[Terminal]) -> tuple[Times, int]:
    """One key after another at its moment, people taking turns; what comes before the next key of the same person is its answer."""
    taken: list[float] = []
    asked: dict[int, float] = {}
    missed = turn = 0
    began = time.monotonic()
    while (now := time.monotonic()) - began < _SECONDS:
        at = began + turn / (_A_SECOND * len(sessions))
        if now >= at:
            who = turn % len(sessions)
            missed += who in asked
            asked[who] = time.monotonic()
            session = sessions[who]
            os.write(session.line, _TYPED[turn // len(sessions) % len(_TYPED)].encode())
            turn += 1
            continue
        lines = {session.line: who for who, session in enumerate(sessions)}
        for line in select.select(lines, [], [], at - now)[0]:
            heard = time.monotonic()
            os.read(line, 65536)
            if (since := asked.pop(lines[line], None)) is not None:
                taken.append((heard - since) * 1000)
    return times_of(taken), missed


def _private(pid: int) -> int:
    """Memory that nobody shares with the process, in kB."""
    lines = Path(f"/proc/{pid}/smaps_rollup").read_text(encoding="ascii").splitlines()
    return sum(int(line.split()[1]) for line in lines if line.startswith("Private_"))
