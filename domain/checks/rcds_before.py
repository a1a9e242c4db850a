"""Every RCD that stands before a circuit: its own, those of the ways that feed its board, the main switch."""

from collections.abc import Mapping
from decimal import Decimal
from typing import NamedTuple

from domain.checks.feeders import Feed
from domain.checks.residual import main_switch_is_rcd
from domain.checks.ways import Way
from domain.circuit import Circuit
from domain.job import Job
from domain.limits.device import is_time_delayed
from domain.reading import Meaning, Reading


class Rcd(NamedTuple):
    """What is known of one RCD."""

    idn: Decimal | None
    """Rated residual current in mA."""
    shown: str
    is_delayed: bool


def rcds_before(job: Job, way: Way, feeds: Mapping[str, Feed]) -> tuple[Rcd, ...]:
    """The RCDs between the supply and a circuit, nearest first."""
    circuits = [way.circuit]
    seen, board = {way.board.id}, way.board.id
    while (feed := feeds.get(board)) and feed.board.id not in seen:
        board = feed.board.id
        seen.add(board)
        circuits += [feed.way] if feed.way else []
    found = [_of(each.rcd_idn, each.rcd_type) for each in circuits if each.has_rcd]
    if main_switch_is_rcd(job):
        found.append(_of(job.main_switch.rcd_idn, job.main_switch.rcd_type))
    return tuple(found)


def says_none(circuit: Circuit) -> bool:
    """It is typed that no RCD protects the circuit; an empty box or a limitation says nothing."""
    typed = circuit.rcd_standard.strip()
    marks = {Meaning.LIMITATION, Meaning.NOT_VERIFIED}
    return bool(typed) and not circuit.has_rcd and Reading.of(typed).meaning not in marks


def _of(idn: Reading, kind: str) -> Rcd:
    return Rcd(idn.figure, idn.shown, is_time_delayed(kind))
