"""One job of many circuits, keyed into the real program in a terminal: what each reading costs from Enter to its last byte."""

import getpass
import os
import time
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from domain.job.circuit import RESULT_BOXES
from domain.job.job import Job
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, complete_certificate
from tests.tui.meter.asked import spread
from tests.tui.meter.presses import is_idle
from tests.tui.terminal import KEYS, Terminal

_ON_A_BOARD = 40
_ZS = RESULT_BOXES.index("zs")
_READINGS = 40
_AHEAD = 10
_PASTED = 1_000_000


def many_circuits(count: int) -> Job:
    """A certificate with so many circuits on boards of forty, the first board at the origin and the others fed from it."""
    job = complete_certificate(sign=False)
    first = job.boards[0]
    like = first.circuits[-1]
    boards = tuple(
        first.model_copy(
            update={
                "id": f"b{1000 + begun}",
                "designation": f"DB{begun // _ON_A_BOARD + 1}",
                "supplied_from": "DB1" if begun else first.supplied_from,
                "circuits": tuple(
                    like.model_copy(
                        update={
                            "id": f"c{1000 + begun + at}",
                            "number": str(at + 1),
                            "description": f"Unit {begun + at + 1} lights",
                        }
                    )
                    for at in range(min(_ON_A_BOARD, count - begun))
                ),
            }
        )
        for begun in range(0, count, _ON_A_BOARD)
    )
    return job.model_copy(update={"boards": boards, "next_id": 1000 + count})


class _Cost(NamedTuple):
    """Milliseconds from a key to the last byte it made the program send: by the clock, and of the processor."""

    clock: float
    worked: float


def keyed(folder: Path, counts: list[int]) -> Iterator[str]:
    """What readings cost in jobs of so many circuits, a line each."""
    yield f"{datetime.now(UTC):%Y-%m-%d}, load on the machine {', '.join(f'{each:.1f}' for each in os.getloadavg())}."
    yield "Milliseconds by the clock (of the processor alone, which a busy machine does not add to)."
    for count in counts:
        with TemporaryDirectory(dir=folder) as home:
            log = SqliteJobLog.open(Path(home))
            log.create(many_circuits(count), who=getpass.getuser(), at=AT)
            log.close()
            yield from _in_a_terminal(Path(home), count)


def _in_a_terminal(home: Path, count: int) -> Iterator[str]:
    with Terminal(home=home, fresh=True) as terminal:
        began = time.monotonic()
        terminal.until("What was done?")
        shown = (time.monotonic() - began) * 1000
        yield f"- start to first question: {shown:.0f} ({_worked(terminal.pid):.0f} with what was loaded by then)"
        terminal.fall_silent()
        opened = _cost(terminal, "\r", "F3 Details")
        readings = _cost(terminal, KEYS["f5"], "Continuity")
        yield f"- {count} circuits: opened {_said(opened)}, its readings {_said(readings)}"
        terminal.press("ctrl+home", *["right"] * _ZS)
        costs = [_kept(terminal, f"0.{70 + at % 29}") for at in range(_READINGS)]
        yield f"- {count} circuits: the first three readings kept: {', '.join(_said(each) for each in costs[:3])}"
        clock, worked = (spread([each[of] for each in costs[3:]]) for of in (0, 1))
        yield (
            f"- {count} circuits: reading kept to paint, median {clock.median:.0f} ({worked.median:.0f}), "
            f"95th percentile {clock.p95:.0f} ({worked.p95:.0f})"
        )
        ahead = _cost(terminal, "".join(f"0.{61 + at}\r" for at in range(_AHEAD)))
        yield f"- {count} circuits: {_AHEAD} readings typed ahead, all kept and shown {_said(ahead)}"
        pasted = _cost(terminal, f"\x1b[200~{'9' * _PASTED}\x1b[201~")
        yield f"- {count} circuits: a paste of {_PASTED:,} bytes {_said(pasted)}: {terminal.text.splitlines()[-1].strip()}"


def _kept(terminal: Terminal, reading: str) -> _Cost:
    for letter in reading:
        _cost(terminal, letter)
    return _cost(terminal, KEYS["enter"])


def _cost(terminal: Terminal, keys: str, shown: str = "") -> _Cost:
    """Press, and take in the answer until the program rests. `shown` is waited for."""
    terminal.arrivals.clear()
    began, worked = time.monotonic(), _worked(terminal.pid)
    for at in range(0, len(keys), 4096):
        terminal.send(keys[at : at + 4096])
    if shown:
        terminal.until(shown)
    while terminal.listen(0.005) or not is_idle(terminal.pid):
        pass
    last = terminal.arrivals[-1][0] if terminal.arrivals else began
    return _Cost((last - began) * 1000, _worked(terminal.pid) - worked)


def _worked(pid: int) -> float:
    """Milliseconds the threads of a program have had of the processor."""
    told = [(each / "schedstat").read_text() for each in Path(f"/proc/{pid}/task").iterdir()]
    return sum(int(each.split()[0]) for each in told) / 1e6


def _said(cost: _Cost) -> str:
    return f"{cost.clock:.0f} ({cost.worked:.0f})"
