"""Every RCD that stands before a circuit: its own, those of its board and of the ways that feed it, the main switch."""

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from domain.checks.shared.feeders import Feed
from domain.checks.shared.phrases import phrase
from domain.figures.limits.device import RCBO, is_time_delayed, kind_of, standard_in
from domain.figures.units import Milliamperes
from domain.job.board import Board
from domain.job.circuit import Circuit
from domain.job.job import Job
from domain.job.reading import Meaning, Reading

USUAL_STANDARD = "BS EN 61008"
"""What an RCD is taken to be made to where no standard of an RCD stands beside it."""


class Rcd(NamedTuple):
    """What is known of one RCD."""

    named: str
    """Such as `The RCD of DB2`, to begin a sentence with."""
    standard: str
    kind: str
    """As typed: `A`, `AC`, `A S`."""
    idn: Reading[Milliamperes]
    """Rated residual current in mA."""
    is_delayed: bool


def own_rcd(circuit: Circuit) -> Rcd | None:
    """The RCD named for a circuit; an RCBO brings its own."""
    if not circuit.has_rcd:
        return None
    return Rcd(
        phrase("own-rcd"),
        circuit.rcd_standard,
        circuit.rcd_type,
        circuit.rcd_idn,
        is_delayed=is_time_delayed(circuit.rcd_type),
    )


def board_rcd(board: Board) -> Rcd | None:
    """The RCD in the header of a board; the header has no box for its standard."""
    if not board.has_rcd:
        return None
    delayed = is_time_delayed(board.rcd_type)
    return Rcd(
        phrase("rcd-of-board", board=board.name), USUAL_STANDARD, board.rcd_type, board.rcd_idn, is_delayed=delayed
    )


def switch_rcd(job: Job) -> Rcd | None:
    """The main switch, where it is an RCD. A delay typed for it makes it time-delayed, whatever its type says."""
    switch = job.main_switch
    if not switch.is_rcd:
        return None
    known = standard_in(switch.standard)
    standard = switch.standard if known and kind_of(known) in {"RCD", "RCBO"} else USUAL_STANDARD
    delayed = is_time_delayed(switch.rcd_type) or (switch.rcd_delay.figure or 0) > 0
    return Rcd(phrase("rcd-main-switch"), standard, switch.rcd_type, switch.rcd_idn, is_delayed=delayed)


def rcds_at(job: Job, board: Board, feeds: Mapping[str, Feed]) -> tuple[Rcd, ...]:
    """The RCDs between the supply and the ways of a board, nearest first."""
    return tuple(rcd for rcd in _upwards(job, board, feeds) if rcd)


def _upwards(job: Job, board: Board, feeds: Mapping[str, Feed]) -> Iterator[Rcd | None]:
    yield board_rcd(board)
    seen, at = {board.id}, board.id
    while (feed := feeds.get(at)) and feed.board.id not in seen:
        at = feed.board.id
        seen.add(at)
        yield own_rcd(feed.way) if feed.way else None
        yield board_rcd(feed.board)
    yield switch_rcd(job)


def most_sensitive(rcds: Iterable[Rcd]) -> Milliamperes | None:
    """The lowest rated residual current (mA) typed for any of them; it decides which loop they can clear."""
    return min((rcd.idn.figure for rcd in rcds if rcd.idn.figure is not None), default=None)


def says_none(circuit: Circuit) -> bool:
    """It is typed that no RCD protects the circuit; an empty box or a limitation says nothing."""
    typed = circuit.rcd_standard.strip()
    if not typed or circuit.has_rcd or standard_in(circuit.device_standard) == RCBO:
        return False
    return Reading.of(typed).meaning not in {Meaning.LIMITATION, Meaning.NOT_VERIFIED}
