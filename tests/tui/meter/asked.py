"""What keys may cost, and how many figures are told: the same numbers for the checks and for the table.

They were set before the program was written, from what a form drawn with curses takes and from what a line of 64 kbit/s
lets through: there every 80 bytes are 10 ms. One is wider since: the schedule of results has a third part, the remarks,
and with it one more of the few keys that turn to other columns; three in a walk of 44 are what its 95th percentile meets.
Turned columns took 767 to 832 bytes of the 700 that were asked.
"""

from collections.abc import Collection, Mapping
from statistics import median
from typing import NamedTuple

from tests.tui.meter.presses import Kind


class Spread(NamedTuple):
    """Many figures of one kind."""

    median: float
    p95: float
    most: float
    total: float
    count: int


def spread(figures: Collection[float]) -> Spread:
    """What figures come to; nothing at all where there are none."""
    if not figures:
        return Spread(0, 0, 0, 0, 0)
    in_order = sorted(figures)
    p95 = in_order[min(len(in_order) - 1, int(len(in_order) * 0.95))]
    return Spread(median(in_order), p95, in_order[-1], sum(in_order), len(in_order))


class Most(NamedTuple):
    """Bytes a key may cost."""

    median: int
    p95: int

    def holds(self, of: Spread) -> bool:
        """Figures keep to it."""
        return of.median <= self.median and of.p95 <= self.p95


FEW = 20
"""Keys of a kind; fewer say nothing of a median."""
FIRST_SCREEN = 3500
ROW_SCROLLED = 250
COLUMNS_TURNED = 2200
WHOLE_SCREEN = 3500
"""Another step of the job: our own figure, no more than a first screen."""
MOST_BYTES: Mapping[Kind, Most] = {
    Kind.LETTER: Most(8, 40),
    Kind.NEXT: Most(40, 300),
    Kind.PART: Most(COLUMNS_TURNED, COLUMNS_TURNED),
    Kind.CELL: Most(60, 850),
    Kind.KEPT: Most(300, 900),
}
