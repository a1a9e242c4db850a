"""Prospective fault current at each board against every device on it."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import NamedTuple

from domain.checks.shared.circuits_in_use import Way, is_at_origin, numbers_of
from domain.checks.shared.decimal_slip import did_you_mean_figure
from domain.checks.shared.finding_factory import FindingFactory, readings_of
from domain.checks.shared.part_by_part import way_by_way
from domain.figures.limits.device import kind_of, standard_in
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure
from domain.figures.units import Amperes, Kiloamperes
from domain.job.board import Board
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning, Reading
from domain.regulation import regulation
from domain.value import says_nothing

_found = FindingFactory("breaking-capacity")
_UPSTREAM = {"BS 88-3", "BS 1361"}
_THOUSAND = 1000
_AMPERES = "amperes"


def breaking_capacity(job: Job) -> Iterator[Finding]:
    """No device may have to break more than it can; in a consumer unit the fuse before it may share the work.

    Each device that fails is named; what is asked or noted of several devices of a board is said once.
    """
    said: dict[tuple[str, str], list[Way]] = {}
    for way, found in _of_ways(job):
        if isinstance(found, Finding):
            yield found
        else:
            said.setdefault((way.board.id, found), []).append(way)
    for (_, which), ways in said.items():
        yield _in_amperes(job, ways) if which == _AMPERES else _with_the_fuse(job, ways)


def _of_a_way(job: Job, way: Way) -> Iterator[Finding | str]:
    """A device that has to break too much; what is said once of all that are alike, in place of it."""
    capacity, ipf = way.circuit.breaking_capacity.figure, _ipf_at(job, way.board)
    if capacity is None:
        return
    if capacity > named_figure("plausibility", "breaking capacity in amperes above", job.edition).value:
        yield _AMPERES
    elif ipf.value is not None and ipf.meaning is not Meaning.UNDER and _exceeds(ipf, capacity):
        if _conditional_rating(job, way, ipf):
            yield way.circuit.breaking_capacity.shown
        else:
            yield _too_much(job, way, ipf)


_of_ways = way_by_way(_of_a_way)


def _ipf_at(job: Job, board: Board) -> Reading[Kiloamperes]:
    """The board's own figure; at the origin the supply's stands in while the board has none."""
    if board.ipf.value is None and is_at_origin(job, board):
        return job.supply.ipf
    return board.ipf


def _in_kilo(ipf: Reading[Kiloamperes]) -> str:
    """The fault current is what is judged, not the box the finding stands at."""
    return f"{ipf.shown} kA" if ipf.value is not None else ""


def _exceeds(ipf: Reading[Kiloamperes], capacity: Decimal) -> bool:
    if ipf.value is None:
        return False
    return ipf.value > capacity or (ipf.meaning is Meaning.OVER and ipf.value == capacity)


def _too_much(job: Job, way: Way, ipf: Reading[Kiloamperes]) -> Finding:
    capacity = way.circuit.breaking_capacity
    source = regulation("breaking capacity", job.edition)
    return _found(
        job,
        way.at("breaking_capacity"),
        Severity.FAILS,
        "over-capacity",
        limit=f"{capacity.shown} kA",
        source=source,
        measured=_in_kilo(ipf),
        ipf=ipf,
        board=way.board.name,
    )


def _with_the_fuse(job: Job, ways: Sequence[Way]) -> Finding:
    first = ways[0]
    ipf, fuse = _ipf_at(job, first.board), _fuse_before(job, first.board)
    return _found(
        job,
        first.at("breaking_capacity"),
        Severity.NOTE,
        "backed-by-the-fuse",
        limit=named_figure("fault_current", "consumer unit, conditional rating", job.edition),
        measured=_in_kilo(ipf),
        ipf=ipf,
        board=first.board.name,
        capacity=first.circuit.breaking_capacity,
        circuits=numbers_of(ways),
        fuse=fuse,
    )


def _in_amperes(job: Job, ways: Sequence[Way]) -> Finding:
    typed = ways[0].circuit.breaking_capacity
    assert typed.figure is not None
    widest = named_figure("plausibility", "breaking capacity in amperes above", job.edition)
    ipf = _ipf_at(job, ways[0].board)
    return _found(
        job,
        ways[0].at("breaking_capacity"),
        Severity.ASK,
        "in-amperes",
        source=widest.source,
        measured=_in_kilo(ipf),
        typed={"readings": readings_of((way.circuit.id, way.circuit.breaking_capacity) for way in ways)},
        capacity=typed,
        circuits=numbers_of(ways),
        next=did_you_mean_figure(typed.figure / _THOUSAND, "kA"),
    )


class Fuse(NamedTuple):
    """The overcurrent device between the supply and a board."""

    standard: str | None
    rating: Reading[Amperes]
    typed: str

    @property
    def shown(self) -> str:
        """As a sentence names it."""
        return f"{self.typed.strip()} {self.rating.shown} A"


def _fuse_before(job: Job, board: Board) -> Fuse:
    """A switch-fuse of the board's own, or else the cut-out of the supply."""
    owner = job.supply if says_nothing(board.device_standard) else board
    return Fuse(standard_in(owner.device_standard), owner.device_rating, owner.device_standard)


def _conditional_rating(job: Job, way: Way, ipf: Reading[Kiloamperes]) -> Limit | None:
    """The rating of a consumer unit as a whole, where the supply fuse and the fault current allow it."""
    rating = named_figure("fault_current", "consumer unit, conditional rating", job.edition)
    largest = named_figure("fault_current", "consumer unit, upstream fuse up to", job.edition)
    fuse, standard = _fuse_before(job, way.board), standard_in(way.circuit.device_standard)
    fits = (
        fuse.standard in _UPSTREAM
        and fuse.rating.figure is not None
        and fuse.rating.figure <= largest.value
        and (is_at_origin(job, way.board) or not says_nothing(way.board.device_standard))
        and way.board.phases.strip() != "3"
        and standard is not None
        and kind_of(standard) in {"breaker", "RCBO"}
        and ipf.meaning is Meaning.VALUE
        and ipf.value is not None
        and ipf.value <= rating.value
    )
    return rating if fits else None
