"""Prospective fault current at each board against every device on it."""

from collections.abc import Iterator
from decimal import Decimal

from domain.board import Board
from domain.checks.ways import Way, is_at_origin, ways_in_use
from domain.finding import Finding, Severity
from domain.job import Job
from domain.limits.device import kind_of, standard_in
from domain.limits.limit import Limit
from domain.limits.loader import named_figure
from domain.limits.source import Source, Trust
from domain.reading import Meaning, Reading

_CHECK = "breaking-capacity"
_UPSTREAM = {"BS 88-3", "BS 1361"}
_THOUSAND = 1000


def breaking_capacity(job: Job) -> Iterator[Finding]:
    """No device may have to break more than it can; in a consumer unit the fuse before it may share the work."""
    for way in ways_in_use(job):
        if way.circuit.breaking_capacity.figure is not None:
            yield from _judged(job, way, _ipf_at(job, way.board))


def _ipf_at(job: Job, board: Board) -> Reading:
    """The board's own figure; at the origin the supply's stands in while the board has none."""
    if board.ipf.value is None and is_at_origin(job, board):
        return job.supply.ipf
    return board.ipf


def _judged(job: Job, way: Way, ipf: Reading) -> Iterator[Finding]:
    capacity = way.circuit.breaking_capacity.figure
    assert capacity is not None
    widest = named_figure("plausibility", "breaking capacity in amperes above", job.edition)
    if capacity > widest.value:
        says = f"{way.circuit.breaking_capacity.shown} kA is beyond any device; 6000 in a box on a breaker is 6 kA. Did you mean {capacity / _THOUSAND:f} kA?"
        yield _finding(way, Severity.ASK, ipf, says, widest.source)
    elif ipf.value is not None and ipf.meaning is not Meaning.UNDER and _exceeds(ipf, capacity):
        yield _too_much(job, way, ipf)


def _exceeds(ipf: Reading, capacity: Decimal) -> bool:
    if ipf.value is None:
        return False
    return ipf.value > capacity or (ipf.meaning is Meaning.OVER and ipf.value == capacity)


def _too_much(job: Job, way: Way, ipf: Reading) -> Finding:
    shown = way.circuit.breaking_capacity.shown
    over = f"{ipf.shown} kA at {way.board.name} is over {shown} kA, what the device can break"
    rating = _conditional_rating(job, way, ipf)
    if rating:
        fuse = f"{job.supply.device_standard.strip()} {job.supply.device_rating.shown} A"
        says = (
            f"{over} alone; it may stand up to {rating.shown} in a consumer unit with a conditional rating, behind the "
            f"{fuse} supply fuse. Make sure the maker's label says so"
        )
        return _finding(way, Severity.NOTE, ipf, says, rating.source, rating.shown)
    source = Source(standard=str(job.edition), table="434.5.1", trust=Trust.MEMORY)
    return _finding(way, Severity.FAILS, ipf, over, source, f"{shown} kA")


def _conditional_rating(job: Job, way: Way, ipf: Reading) -> Limit | None:
    """The rating of a consumer unit as a whole, where the supply fuse and the fault current allow it."""
    rating = named_figure("fault_current", "consumer unit, conditional rating", job.edition)
    largest = named_figure("fault_current", "consumer unit, upstream fuse up to", job.edition)
    fuse, supply = job.supply.device_rating.figure, standard_in(job.supply.device_standard)
    standard = standard_in(way.circuit.device_standard)
    fits = (
        supply in _UPSTREAM
        and fuse is not None
        and fuse <= largest.value
        and is_at_origin(job, way.board)
        and way.board.phases.strip() != "3"
        and standard is not None
        and kind_of(standard) in {"breaker", "RCBO"}
        and ipf.meaning is Meaning.VALUE
        and ipf.value is not None
        and ipf.value <= rating.value
    )
    return rating if fits else None


def _finding(way: Way, severity: Severity, ipf: Reading, says: str, source: Source | None, limit: str = "") -> Finding:
    return Finding(
        check=_CHECK,
        place=way.at("breaking_capacity"),
        severity=severity,
        measured=f"{ipf.shown} kA" if ipf.value is not None else "",
        limit=limit,
        source=source,
        says=says,
    )
