"""Times of many goes at one thing, and what is told of them."""

import time
from collections.abc import Callable, Iterable
from typing import NamedTuple


class Times(NamedTuple):
    """Milliseconds."""

    median: float
    p95: float
    p99: float
    longest: float
    worked: float
    """Time of the processor alone, at the 95th percentile: what a busy machine does not add to."""

    def __str__(self) -> str:
        return f"{self.median:.2f} / {self.p95:.2f} ({self.worked:.2f})"


def timed(goes: Iterable[Callable[[], object]]) -> Times:
    """How long each go took."""
    taken: list[float] = []
    worked: list[float] = []
    for go in goes:
        began, at_work = time.perf_counter(), time.process_time()
        go()
        worked.append((time.process_time() - at_work) * 1000)
        taken.append((time.perf_counter() - began) * 1000)
    return times_of(taken, worked)


def times_of(taken: list[float], worked: list[float] | None = None) -> Times:
    """What lists of milliseconds come to."""
    median, p95, p99 = (_at(share, taken) for share in (0.5, 0.95, 0.99))
    return Times(median, p95, p99, max(taken), _at(0.95, worked or taken))


def _at(share: float, taken: list[float]) -> float:
    return sorted(taken)[min(len(taken) - 1, int(len(taken) * share))]
