"""The circuits of a job as the checks walk them: which of them feed another board, and what stands before them."""

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from domain.checks.shared.feeders import feeds_of
from domain.checks.shared.per_job_cache import cached_per_job_and
from domain.checks.shared.phrases import phrase
from domain.checks.shared.rcds import Rcd, own_rcd, rcds_at
from domain.figures.limits.device import standard_in
from domain.job.board import Board
from domain.job.circuit import Circuit
from domain.job.job import Job
from domain.place import Place
from domain.value import says_nothing

_SAYS_DISTRIBUTION = re.compile(r"\s*(?:sub-?\s?main|distribution (?:circuit|board))", re.IGNORECASE)
_SAYS_SUPPLY = re.compile(
    r"\borigin\b|\bsupply\b|\bmeter|\bcut-?\s?out\b|\bincom(?:er|ing)\b|\bintake\b|\btails\b|\bservice\b|\bmains\b|\bdno\b",
    re.IGNORECASE,
)
_SAYS_BOARD = re.compile(
    r"\b(?:\w*db|msb|panel|panelboard|switchboard|board|way|sub-?\s?main|busbar|riser)\b|\bdb[-\s]?\w+", re.IGNORECASE
)


class Way(NamedTuple):
    """A circuit in use, with its board."""

    board: Board
    circuit: Circuit
    feeds_a_board: bool
    rcds_at_board: tuple[Rcd, ...] = ()
    """The RCDs between the supply and the ways of the board, nearest first."""
    feeds_three_phases: bool = False
    """The board it feeds has three phases."""

    def at(self, box: str) -> Place:
        """The place of one of its boxes."""
        return Place(section="boards", board=self.board.id, circuit=self.circuit.id, box=box)

    @property
    def rcds(self) -> tuple[Rcd, ...]:
        """Every RCD between the supply and the circuit, its own first."""
        own = own_rcd(self.circuit)
        return (own, *self.rcds_at_board) if own else self.rcds_at_board


@cached_per_job_and
def ways_in_use(job: Job) -> tuple[Way, ...]:
    """Every circuit but the spare ways, in schedule order."""
    return tuple(_ways_in_use(job))


def _ways_in_use(job: Job) -> Iterator[Way]:
    feeds = feeds_of(job)
    feeding = {feed.way.id for feed in feeds.values() if feed.way}
    by_three = {
        feed.way.id for each in job.boards if (feed := feeds.get(each.id)) and feed.way and each.phases.strip() == "3"
    }
    before, now = dict(_last), dict[str, _WaysThen]()
    for board in job.boards:
        around = (rcds_at(job, board, feeds), feeding, by_three)
        held = before.get(board.id)
        if held is None or held.board is not board or held.around != around:
            held = _WaysThen(board, around, tuple(_ways_of(board, *around)))
        now[board.id] = held
        yield from held.ways
    _last.clear()
    _last.update(now)


def _ways_of(board: Board, rcds: tuple[Rcd, ...], feeding: set[str], by_three: set[str]) -> Iterator[Way]:
    for circuit in board.circuits:
        if not circuit.is_spare:
            feeds_a_board = circuit.id in feeding or bool(_SAYS_DISTRIBUTION.match(circuit.description))
            yield Way(board, circuit, feeds_a_board, rcds, circuit.id in by_three)


class _WaysThen(NamedTuple):
    """The ways of a board, which an edit elsewhere leaves as they are."""

    board: Board
    around: tuple[tuple[Rcd, ...], set[str], set[str]]
    ways: tuple[Way, ...]


_last: dict[str, _WaysThen] = {}
"""Those of the job looked at last."""


def numbers_of(ways: Sequence[Way]) -> str:
    """The circuits by their numbers, to stand in a sentence: `circuits 1, 2 and 5`."""
    return numbers_in_words([way.circuit.number for way in ways])


def numbers_in_words(typed: Sequence[str]) -> str:
    """The same, of the numbers alone."""
    numbers = [each.strip() or phrase("no-number") for each in typed]
    if len(numbers) == 1:
        return phrase("one-circuit", number=numbers[0])
    return phrase("several-circuits", numbers=", ".join(numbers[:-1]), last=numbers[-1])


def board_place(board: Board, box: str) -> Place:
    """The place of a box in a board's header."""
    return Place(section="boards", board=board.id, box=box)


def is_at_origin(job: Job, board: Board) -> bool:
    """The board is fed by the supply itself, with nothing but tails between."""
    if not says_nothing(board.device_standard) and not _is_supply_device(job, board):
        return False
    if len(job.boards) == 1:
        return not _SAYS_BOARD.search(board.supplied_from) or bool(_SAYS_SUPPLY.search(board.supplied_from))
    says_so = bool(_SAYS_SUPPLY.search(board.supplied_from)) or bool(board.device_standard.strip())
    return says_so and board.id not in feeds_of(job)


def _is_supply_device(job: Job, board: Board) -> bool:
    """The header repeats the fuse of the cut-out, rather than naming a switch-fuse of its own."""
    here, there = standard_in(board.device_standard), standard_in(job.supply.device_standard)
    return here == there and board.device_rating.value == job.supply.device_rating.value
