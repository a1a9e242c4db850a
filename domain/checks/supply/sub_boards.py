"""Boards one after the other: Zs rises and Ipf falls from the origin outwards, by what the cable between adds."""

from collections.abc import Iterator, Mapping
from decimal import Decimal

from domain.checks.shared.cables import runs_in_earthed_metal
from domain.checks.shared.circuits_in_use import board_place, is_at_origin
from domain.checks.shared.decimal_slip import did_you_mean
from domain.checks.shared.feeders import Feed, feeds_of
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.own_earth import is_board_on_tt
from domain.checks.shared.phrases import phrase
from domain.checks.shared.system import is_tt
from domain.checks.shared.tolerances import loop_margin, near, tolerance
from domain.figures.formulas.loop import zs as sum_of
from domain.figures.units import Ohms
from domain.forms.box_group import BoxGroup
from domain.job.board import Board
from domain.job.circuit import Circuit
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Reading
from domain.source import Source

_ENQUIRY = "enquiry"


def _margins(job: Job) -> Source | None:
    """Whatever is asked of boards rests on how far readings of a loop may lie apart."""
    return tolerance("Zs and its parts, apart by", job.edition).source


_found = FindingFactory("sub-boards", _margins)


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
            yield _found(
                job,
                board_place(board, "zs"),
                Severity.ASK,
                "zdb-over-ze",
                limit=phrase("and-margin", figure=supply.ze.shown, margin=f"{margin} Ω"),
                zdb=zdb,
                ze=supply.ze,
                margin=margin,
                next=_slip_at_origin(job, board) or phrase("one-is-wrong"),
            )
        else:
            yield from _a_place_apart(job, board, "zs", supply.ze, "Ze", "Ω")
    if supply.ipf_by != _ENQUIRY:
        yield from _rising(job, board, supply.ipf, "ipf-over-supply")
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
    slip = did_you_mean(origin, unit, near(reading.figure, job.edition), of=name)
    if slip:
        yield _found(
            job,
            board_place(board, box),
            Severity.ASK,
            "apart-at-origin",
            limit=phrase("about", figure=f"{origin.shown} {unit}"),
            origin=origin,
            reading=reading,
            name=name,
            unit=unit,
            board=board.name,
            next=slip,
        )


def _slip_at_origin(job: Job, board: Board) -> str:
    """Zdb is the one that slipped where a circuit reads less than it; otherwise it may be Ze."""
    ze, zdb = job.supply.ze, board.zs
    if ze.figure is None or zdb.figure is None:
        return ""
    lowest = min((each.zs.figure for each in board.circuits if each.zs.figure is not None), default=None)
    if lowest is None or lowest < zdb.figure:
        return did_you_mean(zdb, "Ω", near(ze.figure, job.edition))
    return did_you_mean(ze, "Ω", near(zdb.figure, job.edition), of="Ze")


def _after_a_board(job: Job, board: Board, feed: Feed) -> Iterator[Finding]:
    before = feed.board.zs
    if board.zs.figure is not None and before.figure is not None and before.figure > 0:
        if board.zs.figure < before.figure:
            yield _found(
                job,
                board_place(board, "zs"),
                Severity.ASK,
                "zdb-below",
                limit=phrase("at-least", figure=f"{before.shown} Ω"),
                zdb=board.zs,
                before=before,
                board=board.name,
                before_board=feed.board.name,
                next=_slip(job, board, feed) or phrase("parallel-or-one-of-two-wrong"),
            )
        elif feed.way and is_board_on_tt(job, board) == is_board_on_tt(job, feed.board):
            yield from _against_the_way(job, board, feed, feed.way)
    yield from _rising(job, board, feed.board.ipf, "ipf-rises", feed.board.name)


def _slip(job: Job, board: Board, feed: Feed) -> str:
    total = _total(feed)
    return did_you_mean(board.zs, "Ω", near(total, job.edition)) if total is not None else ""


def _total(feed: Feed) -> Decimal | None:
    inside = feed.way.r1_r2.figure if feed.way else None
    before = feed.board.zs.figure
    return before + inside if before is not None and inside is not None and inside > 0 else None


def _against_the_way(job: Job, board: Board, feed: Feed, way: Circuit) -> Iterator[Finding]:
    total, before, inside = _total(feed), feed.board.zs.figure, way.r1_r2.figure
    if total is None or before is None or inside is None or board.zs.figure is None:
        return
    margin = loop_margin(Ohms(total), job.edition, on_tt=is_board_on_tt(job, board))
    apart = board.zs.figure - total
    if abs(apart) <= margin:
        return
    slip = _slip(job, board, feed)
    is_shared = apart < 0 and runs_in_earthed_metal(way) and not slip
    yield _found(
        job,
        board_place(board, "zs"),
        Severity.NOTE if is_shared else Severity.ASK,
        "zdb-off-its-way",
        limit=phrase("give-or-take", figure=total, margin=f"{margin} Ω"),
        zdb=board.zs,
        before=feed.board.zs,
        r1_r2=way.r1_r2,
        board=board.name,
        before_board=feed.board.name,
        sum=sum_of(Ohms(before), Ohms(inside)).sum,
        margin=margin,
        next=slip or phrase("joint-or-figure" if apart > 0 else "parallel-paths"),
    )


def _rising(job: Job, board: Board, before: Reading, case: str, before_board: str = "") -> Iterator[Finding]:
    ipf, share = board.ipf, tolerance("Ipf may rise down the line by share", job.edition)
    if ipf.figure is None or before.figure is None or before.figure <= 0:
        return
    if ipf.figure > before.figure * (1 + share.value):
        slip = did_you_mean(ipf, "kA", lambda moved: _is_near(moved, before.figure, share.value))
        yield _found(
            job,
            board_place(board, "ipf"),
            Severity.ASK,
            case,
            limit=phrase("up-to", figure=f"{before.shown} kA"),
            ipf=ipf,
            before=before,
            board=board.name,
            before_board=before_board,
            next=slip or phrase("one-is-wrong"),
        )


def _is_near(moved: Decimal, before: Decimal | None, share: Decimal) -> bool:
    return before is not None and before * (1 - share) <= moved <= before
