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

    def __str__(self) -> str:
        return f"{self.median:.2f} / {self.p95:.2f}"


def timed(goes: Iterable[Callable[[], object]]) -> Times:
    """How long each go took."""
    taken: list[float] = []
    for go in goes:
        began = time.perf_counter()
        go()
        taken.append((time.perf_counter() - began) * 1000)
    return times_of(taken)


def times_of(taken: list[float]) -> Times:
    """What a list of milliseconds comes to."""
    ordered = sorted(taken)
    at = [ordered[min(len(ordered) - 1, int(len(ordered) * share))] for share in (0.5, 0.95, 0.99)]
    return Times(at[0], at[1], at[2], ordered[-1])
