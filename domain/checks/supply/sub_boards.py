"""Boards one after the other: Zs rises and Ipf falls from the origin outwards, by what the cable between adds."""

from collections.abc import Iterator, Mapping
from decimal import Decimal

from domain.checks.shared.cables import runs_in_earthed_metal
from domain.checks.shared.circuits_in_use import board_place, is_at_origin
from domain.checks.shared.decimal_slip import did_you_mean
from domain.checks.shared.feeders import Feed, feeds_of
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.system import is_tt
from domain.checks.shared.tolerances import about, look, loop_margin
from domain.figures.formulas.loop import zs as sum_of
from domain.forms.box_group import BoxGroup
from domain.job.board import Board
from domain.job.circuit import Circuit
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Reading
from domain.place import Place

_found = FindingFactory("sub-boards")
_ENQUIRY = "enquiry"


def sub_boards(job: Job) -> Iterator[Finding]:
    """A board's Zdb is that of the board before it and R1+R2 of the way between; at the origin it is about Ze."""
    if not job.profile.takes(BoxGroup.BOARD_FEED):
        return
    feeds = feeds_of(job)
    for board in job.boards:
        feed = feeds.get(board.id)
        if feed and not _is_circle(feeds, board, feed):
            yield from _after_a_board(job, board, feed)
        elif feed is None and is_at_origin(job, board):
            yield from _at_the_origin(job, board)


def _is_circle(feeds: Mapping[str, Feed], board: Board, feed: Feed) -> bool:
    onwards = feeds.get(feed.board.id)
    return feed.board is board or (onwards is not None and onwards.board is board)


def _at_the_origin(job: Job, board: Board) -> Iterator[Finding]:
    supply, zdb = job.supply, board.zs
    if supply.ze_by != _ENQUIRY and zdb.figure is not None and supply.ze.figure is not None and supply.ze.figure > 0:
        margin = loop_margin(supply.ze.figure, job.edition, on_tt=is_tt(job))
        if zdb.figure > supply.ze.figure + margin:
            slip = _slip_at_origin(job, board)
            says = (
                f"Zdb {zdb.shown} Ω at the origin is more than Ze {supply.ze.shown} Ω; only the tails lie between, and "
                f"{margin} Ω is put down to measuring. {slip or 'Is one of them wrong?'}"
            )
            yield _misfit(job, board_place(board, "zs"), f"{supply.ze.shown} + {margin} Ω", says)
        else:
            yield from _a_place_apart(job, board, "zs", supply.ze, "Ze", "Ω")
    if supply.ipf_by != _ENQUIRY:
        yield from _rising(job, board, supply.ipf, "at the origin")
        yield from _a_place_apart(job, board, "ipf", supply.ipf, "Ipf of the supply", "kA")


def _a_place_apart(job: Job, board: Board, box: str, origin: Reading, name: str, unit: str) -> Iterator[Finding]:
    """Only the tails lie between the two, so one ten times the other has its point moved.

    Asked on TT alone: elsewhere the usual Ze, and Ipf against the loop, tell already.
    """
    reading: Reading = getattr(board, box)
    if (
        not is_tt(job)
        or reading.figure is None
        or origin.figure is None
        or reading.figure <= 0
        or origin.figure <= reading.figure
    ):
        return
    slip = did_you_mean(origin, unit, about(reading.figure, job.edition))
    if slip:
        says = (
            f"{name} {origin.shown} {unit} and {reading.shown} {unit} at {board.name} are far apart, and only the tails "
            f"lie between. For {name}: {slip[0].lower()}{slip[1:]}"
        )
        yield _misfit(job, board_place(board, box), f"about {origin.shown} {unit}", says)


def _slip_at_origin(job: Job, board: Board) -> str:
    """Zdb is the one that slipped where a circuit reads less than it; otherwise it may be Ze."""
    ze, zdb = job.supply.ze, board.zs
    if ze.figure is None or zdb.figure is None:
        return ""
    lowest = min((each.zs.figure for each in board.circuits if each.zs.figure is not None), default=None)
    if lowest is None or lowest < zdb.figure:
        return did_you_mean(zdb, "Ω", about(ze.figure, job.edition))
    slip = did_you_mean(ze, "Ω", about(zdb.figure, job.edition))
    return f"For Ze: {slip[0].lower()}{slip[1:]}" if slip else ""


def _after_a_board(job: Job, board: Board, feed: Feed) -> Iterator[Finding]:
    before = feed.board.zs
    if board.zs.figure is not None and before.figure is not None and before.figure > 0:
        if board.zs.figure < before.figure:
            slip = _slip(job, board, feed)
            says = (
                f"Zdb {board.zs.shown} Ω of {board.name} is below {before.shown} Ω of {feed.board.name}, which feeds it. "
                f"{slip or 'Parallel earth paths can do that; otherwise one of the two is wrong'}"
            )
            yield _misfit(job, board_place(board, "zs"), f"at least {before.shown} Ω", says)
        elif feed.way:
            yield from _against_the_way(job, board, feed, feed.way)
    yield from _rising(job, board, feed.board.ipf, f"at {feed.board.name}")


def _slip(job: Job, board: Board, feed: Feed) -> str:
    total = _total(feed)
    return did_you_mean(board.zs, "Ω", about(total, job.edition)) if total is not None else ""


def _total(feed: Feed) -> Decimal | None:
    inside = feed.way.r1_r2.figure if feed.way else None
    before = feed.board.zs.figure
    return before + inside if before is not None and inside is not None and inside > 0 else None


def _against_the_way(job: Job, board: Board, feed: Feed, way: Circuit) -> Iterator[Finding]:
    total, before, inside = _total(feed), feed.board.zs.figure, way.r1_r2.figure
    if total is None or before is None or inside is None or board.zs.figure is None:
        return
    margin = loop_margin(total, job.edition, on_tt=is_tt(job))
    apart = board.zs.figure - total
    if abs(apart) <= margin:
        return
    slip = _slip(job, board, feed)
    is_shared = apart < 0 and runs_in_earthed_metal(way) and not slip
    why = "Is a joint loose, or one of the figures wrong?" if apart > 0 else "Parallel earth paths can do that"
    says = (
        f"Zdb {board.zs.shown} Ω of {board.name} does not fit {feed.board.name} and R1+R2 of the way that feeds it, "
        f"{sum_of(before, inside).sum}; up to {margin} Ω is put down to measuring. {slip or why}"
    )
    severity = Severity.NOTE if is_shared else Severity.ASK
    yield _misfit(job, board_place(board, "zs"), f"{total} ± {margin} Ω", says, severity)


def _rising(job: Job, board: Board, before: Reading, where: str) -> Iterator[Finding]:
    ipf, share = board.ipf, look("Ipf may rise down the line by share", job.edition)
    if ipf.figure is None or before.figure is None or before.figure <= 0:
        return
    if ipf.figure > before.figure * (1 + share.value):
        slip = did_you_mean(ipf, "kA", lambda moved: _is_near(moved, before.figure, share.value))
        says = (
            f"Ipf {ipf.shown} kA at {board.name} is more than {before.shown} kA {where}, and fault current falls along "
            f"the cables. {slip or 'Is one of them wrong?'}"
        )
        yield _misfit(job, board_place(board, "ipf"), f"up to {before.shown} kA", says)


def _is_near(moved: Decimal, before: Decimal | None, share: Decimal) -> bool:
    return before is not None and before * (1 - share) <= moved <= before


def _misfit(job: Job, place: Place, limit: str, says: str, severity: Severity = Severity.ASK) -> Finding:
    """Whatever is asked of boards rests on how far readings of a loop may lie apart, and names it as its source."""
    source = look("Zs and its parts, apart by", job.edition).source
    return _found(job, place, severity, says, limit=limit, source=source)
