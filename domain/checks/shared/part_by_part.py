"""Checks that judge one circuit, or one board, at a time: what a reading cannot touch is not judged again.

What is said of a circuit hangs on the circuit and on its surroundings; of a board, on its circuits as well. While those
are what they were for the job judged last, so is what was said. Circuits and boards are known by identity: they are
frozen, and an edit makes no others anew.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import wraps
from typing import Generic, NamedTuple, TypeVar

from domain.checks.shared.circuits_in_use import Way, ways_in_use
from domain.checks.shared.expected import boards_denied
from domain.checks.shared.feeders import feeds_of
from domain.checks.shared.per_job_cache import cached_per_job_and
from domain.job.board import Board
from domain.job.finding import Finding
from domain.job.job import Job

P = TypeVar("P")
T = TypeVar("T")

NOT_LOOKED_AT = frozenset({"signatures", "unconfirmed", "next_id"})
"""What of a job no check of a circuit or board reads."""
_OF_THE_JOB = tuple(name for name in Job.model_fields if name != "boards" and name not in NOT_LOOKED_AT)
_OF_A_BOARD = tuple(name for name in Board.model_fields if name != "circuits")


class WaysOfBoard(NamedTuple):
    """A board with those of its circuits that are in use."""

    board: Board
    ways: tuple[Way, ...]


class _Judged(NamedTuple, Generic[P, T]):
    """What was said of the parts of one job."""

    parts: Sequence[P]
    around: object
    said: dict[int, tuple[T, ...]]
    """By the turn of the part, where anything was said."""


def of_each_way(judge: Callable[[Job, Way], Iterator[Finding]]) -> Callable[[Job], Iterator[Finding]]:
    """A check of every circuit in use, in schedule order, from one that judges a circuit by itself and its surroundings.

    `judge` may look at nothing else: of other circuits only at those that feed boards. Tests hold it to that.
    """
    judged = way_by_way(judge)

    @wraps(judge)
    def check(job: Job) -> Iterator[Finding]:
        return (finding for _, finding in judged(job))

    return check


def way_by_way(judge: Callable[[Job, Way], Iterable[T]]) -> Callable[[Job], Iterator[tuple[Way, T]]]:
    """The same for a check that goes on with what it found: whatever `judge` says, each with its circuit."""
    return _part_by_part(ways_in_use, _other_ways, judge)


def board_by_board(
    judge: Callable[[Job, WaysOfBoard], Iterable[T]],
) -> Callable[[Job], Iterator[tuple[WaysOfBoard, T]]]:
    """The same for boards, each judged with its circuits."""
    return _part_by_part(ways_by_board, _other_boards, judge)


@cached_per_job_and
def ways_by_board(job: Job) -> tuple[WaysOfBoard, ...]:
    """Every board with its circuits in use, in schedule order."""
    ways: dict[str, list[Way]] = {board.id: [] for board in job.boards}
    for way in ways_in_use(job):
        ways[way.board.id].append(way)
    return tuple(WaysOfBoard(board, tuple(ways[board.id])) for board in job.boards)


def _part_by_part(
    parts_of: Callable[[Job], Sequence[P]],
    changed: Callable[[Sequence[P], Sequence[P]], Iterable[int]],
    judge: Callable[[Job, P], Iterable[T]],
) -> Callable[[Job], Iterator[tuple[P, T]]]:
    last: _Judged[P, T] | None = None

    def judged(job: Job) -> Iterator[tuple[P, T]]:
        nonlocal last
        before, parts, around = last, parts_of(job), surroundings_of(job)
        said: dict[int, tuple[T, ...]] = {}
        turns: Iterable[int] = range(len(parts))
        if before and before.around is around and len(before.parts) == len(parts):
            said, turns = dict(before.said), changed(before.parts, parts)
        for turn in turns:
            said.pop(turn, None)
            if found := tuple(judge(job, parts[turn])):
                said[turn] = found
        last = _Judged(parts, around, said)
        for turn in sorted(said):
            yield from ((parts[turn], each) for each in said[turn])

    return judged


def _turns_where(differ: Callable[[P, P], bool]) -> Callable[[Sequence[P], Sequence[P]], Sequence[int]]:
    """Which parts of two jobs differ, by their turns; told once for all checks that ask it of the same two."""
    last: tuple[Sequence[P], Sequence[P], Sequence[int]] | None = None

    def told(before: Sequence[P], now: Sequence[P]) -> Sequence[int]:
        nonlocal last
        held = last
        if held is None or held[0] is not before or held[1] is not now:
            turns = [turn for turn, pair in enumerate(zip(before, now, strict=True)) if differ(*pair)]
            held = last = (before, now, turns)
        return held[2]

    return told


def _is_other_way(before: Way, now: Way) -> bool:
    return before.circuit is not now.circuit or before.board.id != now.board.id


def _is_other_board(before: WaysOfBoard, now: WaysOfBoard) -> bool:
    return before.board is not now.board


_other_ways, _other_boards = _turns_where(_is_other_way), _turns_where(_is_other_board)
_known: tuple[object, ...] = ()


@cached_per_job_and
def surroundings_of(job: Job) -> object:
    """All that what is said of one circuit can hang on besides: the same object again while nothing of it changed.

    It is the job without its circuits, and of those the ones that feed boards, and what is denied of a board by its
    circuits together.
    """
    global _known
    feeds = feeds_of(job)
    known, found = (
        _known,
        (
            *(getattr(job, name) for name in _OF_THE_JOB),
            *(tuple(getattr(board, name) for name in _OF_A_BOARD) for board in job.boards),
            *((fed, feed.board.id, feed.way, feed.is_way_missing) for fed, feed in feeds.items()),
            boards_denied(job),
        ),
    )
    if known == found:
        return known
    _known = found
    return found
