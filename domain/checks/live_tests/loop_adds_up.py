"""Zs against the sum of its parts: what lies before the circuit, and R1+R2."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import NamedTuple

from domain.checks.shared.cables import runs_in_earthed_metal
from domain.checks.shared.circuits_in_use import Way, board_place, numbers_of
from domain.checks.shared.decimal_slip import decimal_shift, did_you_mean, did_you_mean_figure
from domain.checks.shared.expected import impedance_before
from domain.checks.shared.finding_factory import FindingFactory, readings_of
from domain.checks.shared.own_earth import has_own_electrode, is_board_on_tt
from domain.checks.shared.part_by_part import WaysOfBoard, board_by_board, of_each_way
from domain.checks.shared.phrases import phrase
from domain.checks.shared.tolerances import is_majority, loop_margin, near, tolerance
from domain.figures.formulas.loop import zs as sum_of
from domain.figures.units import Ohms
from domain.job.board import Board
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Reading
from domain.place import Place

_found = FindingFactory("loop-adds-up")


class Misfit(NamedTuple):
    """A circuit whose Zs and parts are too far apart, as figures."""

    way: Way
    total: Decimal
    apart: Decimal
    margin: Decimal
    is_higher: bool
    box: str
    """Which of the readings is asked about."""
    slip: str
    """What it may have been meant to be; "" where no moved point fits."""


def loop_adds_up(job: Job) -> Iterator[Finding]:
    """Zs is about Ze or Zdb + R1+R2. More asks for the joints, less for parallel paths, either for the decimal point."""
    yield from _part_and_whole(job)
    yield from (finding for _, finding in _of_boards(job))


def _of_a_board(job: Job, held: WaysOfBoard) -> Iterator[Finding]:
    before, name = impedance_before(job, held.board)
    if before.figure is not None and before.figure > 0:
        ways = [way for way in held.ways if not has_own_electrode(job, way)]
        yield from _on_a_board(job, held.board, ways, before, name)


_of_boards = board_by_board(_of_a_board)


@of_each_way
def _part_and_whole(job: Job, way: Way) -> Iterator[Finding]:
    whole, part = way.circuit.r1_r2, way.circuit.r2
    if whole.figure is not None and part.figure is not None and part.figure >= whole.figure > 0:
        limit = phrase("under", figure=f"{whole.shown} Ω")
        yield _found(job, way.at("r2"), Severity.ASK, "r2-not-under-the-whole", limit=limit, r2=part, r1_r2=whole)


def _on_a_board(job: Job, board: Board, ways: Sequence[Way], before: Reading[Ohms], name: str) -> Iterator[Finding]:
    """Where most circuits misfit the same way, it is the figure before them that is asked about, once."""
    assert before.figure is not None
    read = [way for way in ways if way.circuit.zs.figure is not None and (way.circuit.r1_r2.figure or 0) > 0]
    if is_majority([way for way in read if (way.circuit.zs.figure or 0) < before.figure], read, job.edition):
        return
    misfits = [misfit for way in read if (misfit := _misfit(job, way, before.figure))]
    higher = [misfit for misfit in misfits if misfit.is_higher]
    if not is_majority(higher, read, job.edition):
        yield from (_asked(job, misfit, before.figure, name) for misfit in misfits)
        return
    place = board_place(board, "zs") if board.zs.figure is not None else Place(section="supply", box="ze")
    yield _found(
        job,
        place,
        Severity.ASK,
        "most-over-their-parts",
        measured=f"{before.shown} Ω",
        typed={"readings": readings_of(_read_on(higher))},
        circuits=numbers_of([misfit.way for misfit in higher]),
        board=board.name,
        name=name,
        before=before,
        least=min(misfit.apart for misfit in higher),
        next=_before_meant(job, before, higher),
    )


def _read_on(misfits: Sequence[Misfit]) -> Iterator[tuple[str, Reading]]:
    for misfit in misfits:
        circuit = misfit.way.circuit
        yield from ((circuit.id, circuit.zs), (circuit.id, circuit.r1_r2))


def _before_meant(job: Job, before: Reading[Ohms], higher: Sequence[Misfit]) -> str:
    """What the figure before the circuits would be, to make most of them fit."""
    lefts = sorted(misfit.total + misfit.apart - (misfit.way.circuit.r1_r2.figure or 0) for misfit in higher)
    slip = did_you_mean(before, "Ω", near(lefts[len(lefts) // 2], job.edition))
    return slip or phrase("joint-before-or-figure")


def _misfit(job: Job, way: Way, before: Decimal) -> Misfit | None:
    zs, inside = way.circuit.zs.figure, way.circuit.r1_r2.figure
    if zs is None or inside is None or zs < before:
        return None
    total = before + inside
    apart, is_higher = abs(zs - total), zs > total
    if apart <= loop_margin(Ohms(total), job.edition, on_tt=is_board_on_tt(job, way.board)):
        return None
    box, slip = _slip(job, way, before, total)
    by_rcd = is_higher and not slip and bool(way.rcds)
    margin = loop_margin(Ohms(total), job.edition, by_rcd=by_rcd, on_tt=is_board_on_tt(job, way.board))
    return Misfit(way, total, apart, margin, is_higher, box, slip) if apart > margin else None


def _asked(job: Job, misfit: Misfit, before: Ohms, name: str) -> Finding:
    way = misfit.way
    zs, inside = way.circuit.zs, way.circuit.r1_r2
    assert inside.figure is not None
    total = sum_of(before, inside.figure)
    by_rcd = misfit.is_higher and not misfit.slip and bool(way.rcds)
    severity = Severity.ASK
    if not misfit.slip and not misfit.is_higher and runs_in_earthed_metal(way.circuit):
        severity = Severity.NOTE
    case = ("over-its-parts-through-rcd" if by_rcd else "over-its-parts") if misfit.is_higher else "under-its-parts"
    why = phrase("joint-or-figure" if misfit.is_higher else "parallel-or-one-of-figures-wrong")
    return _found(
        job,
        way.at(misfit.box),
        severity,
        case,
        limit=phrase("give-or-take", figure=misfit.total, margin=f"{misfit.margin} Ω"),
        source=tolerance("Zs and its parts, apart by", job.edition).source,
        working=total.sum,
        typed={"before": str(before)},
        zs=zs,
        r1_r2=inside,
        apart=misfit.apart,
        name=name,
        sum=total.sum,
        margin=misfit.margin,
        next=misfit.slip or why,
    )


def _slip(job: Job, way: Way, before: Decimal, total: Decimal) -> tuple[str, str]:
    """The reading whose point may have slipped: the one that fits the closer, moved. On TT, R1+R2 is lost in the scatter."""
    zs, inside = way.circuit.zs, way.circuit.r1_r2
    left = zs.figure - before if zs.figure is not None else Decimal(0)
    whole = decimal_shift(zs, near(total, job.edition))
    part = decimal_shift(inside, near(left, job.edition)) if left > 0 and not is_board_on_tt(job, way.board) else None
    if part is not None and (whole is None or abs(part - left) / left < abs(whole - total) / total):
        return "r1_r2", did_you_mean_figure(part, "Ω", of="R1+R2")
    return "zs", did_you_mean_figure(whole, "Ω") if whole is not None else ""
