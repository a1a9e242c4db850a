"""Which circuit of an earlier paper is which circuit now, even where the ways were renumbered."""

from collections.abc import Iterable, Mapping
from functools import lru_cache

from domain.job.board import Board
from domain.job.circuit import Circuit
from domain.job.job import Job
from domain.job.reading import Reading
from domain.value import Line, Value
from domain.words import joined, words_of

_DESCRIPTION, _RATING, _CABLE, _DEVICE, _SHAPE, _NUMBER, _BOARD = 40, 14, 12, 10, 8, 8, 8
"""What each thing in common weighs, of a hundred. A number alone says little: ways are renumbered."""
_LEAST = 40
"""Circuits less alike than this are not put forward."""
_STEM = 4
"""Words are compared by so many letters: sockets and socket, lighting and lights."""

Row = tuple[Board, Circuit]


class Match(Value):
    """A circuit now, and the one it was."""

    board: Line
    circuit: Line
    was_board: Line = ""
    was: Line = ""
    """Id of the earlier circuit; "" where there was none."""
    likeness: int = 0
    """0 to 100."""
    confirmed: bool = False
    """A person said so."""


def matched(now: Job, earlier: Job, confirmed: Mapping[str, str] | None = None) -> tuple[Match, ...]:
    """A match for every circuit in use now, in schedule order: what people said first, then the likeliest pairs."""
    said = confirmed or {}
    rows, before = _in_use(now), {circuit.id: (board, circuit) for board, circuit in _in_use(earlier)}
    pairs: dict[str, tuple[str, int]] = {circuit: (was if was in before else "", 0) for circuit, was in said.items()}
    taken = {was for was, _ in pairs.values()}
    open_rows = [row for row in rows if row[1].id not in pairs]
    free = [row for was, row in before.items() if was not in taken]
    pairs |= _likeliest(open_rows, free)
    return tuple(_match(row, before, pairs, is_said=row[1].id in said) for row in rows)


def likeness(one: Row, other: Row) -> int:
    """How alike two circuits are by what they feed, device, rating, cable, shape, number and board; 0 to 100."""
    (board, now), (was_board, was) = one, other
    shared = _DESCRIPTION * _common(now.description, was.description)
    for weight, same in (
        (_RATING, _same(now.rating, was.rating)),
        (_CABLE, _same(now.live_csa, was.live_csa) and _same(now.cpc_csa, was.cpc_csa)),
        (_DEVICE, _alike(now.device_standard, was.device_standard) and _alike(now.device_type, was.device_type)),
        (_SHAPE, _alike(now.shape, was.shape)),
        (_NUMBER, _alike(now.number, was.number)),
        (_BOARD, _alike(board.designation, was_board.designation)),
    ):
        shared += weight if same else 0
    return round(shared)


def earlier_circuits(earlier: Job) -> tuple[Row, ...]:
    """What a circuit can have been."""
    return _in_use(earlier)


def _likeliest(rows: Iterable[Row], before: Iterable[Row]) -> dict[str, tuple[str, int]]:
    """Each circuit at most once, the most alike pair first."""
    others = tuple(before)
    scored = [
        (alike, row[1].id, other[1].id) for row in rows for other in others if (alike := likeness(row, other)) >= _LEAST
    ]
    scored.sort(key=lambda pair: -pair[0])
    pairs: dict[str, tuple[str, int]] = {}
    taken: set[str] = set()
    for alike, circuit, was in scored:
        if circuit not in pairs and was not in taken:
            pairs[circuit] = was, alike
            taken.add(was)
    return pairs


def _match(row: Row, before: Mapping[str, Row], pairs: Mapping[str, tuple[str, int]], *, is_said: bool) -> Match:
    board, circuit = row
    was, _ = pairs.get(circuit.id, ("", 0))
    if not was:
        return Match(board=board.id, circuit=circuit.id, confirmed=is_said)
    was_board, _ = before[was]
    return Match(
        board=board.id,
        circuit=circuit.id,
        was_board=was_board.id,
        was=was,
        likeness=likeness(row, before[was]),
        confirmed=is_said,
    )


def _in_use(job: Job) -> tuple[Row, ...]:
    return tuple((board, circuit) for board, circuit in job.circuits() if not circuit.is_spare)


def _alike(one: str, other: str) -> bool:
    return bool(joined(one)) and joined(one) == joined(other)


def _same(one: Reading, other: Reading) -> bool:
    return one.figure is not None and one.figure == other.figure


def _common(one: str, other: str) -> float:
    stems, others = _stems(one), _stems(other)
    return len(stems & others) / len(stems | others) if stems and others else 0.0


@lru_cache(maxsize=4096)
def _stems(text: str) -> frozenset[str]:
    return frozenset(word[:_STEM] for word in words_of(text))
