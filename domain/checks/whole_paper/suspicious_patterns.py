"""Readings that look worked out or copied: too exact a sum, a ring by formula, one figure on circuit after circuit."""

from collections import Counter
from collections.abc import Iterator, Sequence
from decimal import Decimal

from domain.checks.shared.circuits_in_use import Way, board_place
from domain.checks.shared.expected import by_the_metre, impedance_before
from domain.checks.shared.finding_factory import FindingFactory, readings_of
from domain.checks.shared.part_by_part import WaysOfBoard, board_by_board, ways_by_board
from domain.checks.shared.phrases import phrase
from domain.checks.shared.tolerances import tolerance
from domain.edition import Edition
from domain.figures.formulas.rounding import half_up
from domain.figures.limits.device import RCBO, standard_in
from domain.job.board import Board
from domain.job.box import boxes_of
from domain.job.circuit import Circuit
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Reading

_found = FindingFactory("made-up")
_RUNS = {"r1_r2", "r2"}
_COLUMNS = ("r1_r2", "r2", "ir_live", "ir_earth", "zs", "rcd_time")


def made_up(job: Job) -> Iterator[Finding]:
    """Real readings scatter; where none does, a person is asked how they were got."""
    yield from (finding for _, finding in _of_boards(job))
    yield from _rings_by_formula(job, [way for each in ways_by_board(job) for way in each.ways if way.circuit.is_ring])


def _of_a_board(job: Job, held: WaysOfBoard) -> Iterator[Finding]:
    yield from _adds_up_exactly(job, held.board, held.ways)
    for box in _COLUMNS:
        yield from _copied_down(job, held.ways, box)


_of_boards = board_by_board(_of_a_board)


def _adds_up_exactly(job: Job, board: Board, ways: Sequence[Way]) -> Iterator[Finding]:
    before, name = impedance_before(job, board)
    rows = [
        (zs, inside)
        for way in ways
        if (zs := way.circuit.zs.figure) is not None and (inside := way.circuit.r1_r2.figure) is not None
    ]
    enough = tolerance("circuits that add up exactly", job.edition)
    if before.figure is None or len(rows) < enough.value:
        return
    if all(zs == before.figure + inside for zs, inside in rows) and not all(
        _is_coarse(inside, job.edition) for _, inside in rows
    ):
        yield _found(
            job,
            board_place(board, "zs"),
            Severity.ASK,
            "adds-up-exactly",
            source=enough.source,
            measured=phrase("count-of-circuits", count=len(rows), read=len(rows)),
            typed={"readings": readings_of(_read_on(ways, "zs", "r1_r2"))},
            count=len(rows),
            board=board.name,
            name=name,
            before=before,
        )


def _copied_down(job: Job, ways: Sequence[Way], box: str) -> Iterator[Finding]:
    """RCD times may be alike where one RCD serves several circuits, so only RCBOs count."""
    read: list[tuple[Way, Reading]] = [(way, getattr(way.circuit, box)) for way in ways]
    read = [(way, reading) for way, reading in read if reading.figure is not None and _counts(way, box)]
    least = tolerance("circuits that read the same", job.edition)
    if len(read) < least.value:
        return
    figure, times = Counter(reading.figure for _, reading in read).most_common(1)[0]
    if times < least.value or times < len(read) * tolerance("share of circuits that read the same", job.edition).value:
        return
    if box in _RUNS and figure is not None and _is_coarse(figure, job.edition):
        return
    way, reading = next((way, reading) for way, reading in read if reading.figure == figure)
    declared = boxes_of(Circuit)[box]
    figure_shown = f"{reading.shown} {declared.unit}"
    yield _found(
        job,
        way.at(box),
        Severity.ASK,
        "insulation-reads-the-same" if box.startswith("ir_") else "read-the-same",
        source=least.source,
        measured=phrase("figure-on-circuits", figure=figure_shown, count=times),
        typed={"readings": readings_of(_read_on(ways, box))},
        count=times,
        read=len(read),
        board=way.board.name,
        label=declared.label,
        figure=figure_shown,
    )


def _is_coarse(figure: Decimal, edition: Edition) -> bool:
    """A short run read in so few steps of the instrument's last digit that others read the same."""
    steps = int(figure.scaleb(-int(figure.as_tuple().exponent)))
    return 0 < steps < tolerance("short runs read in steps under", edition).value


def _read_on(ways: Sequence[Way], *boxes: str) -> Iterator[tuple[str, Reading]]:
    for way in ways:
        yield from ((way.circuit.id, getattr(way.circuit, box)) for box in boxes)


def _counts(way: Way, box: str) -> bool:
    return box != "rcd_time" or RCBO in {
        standard_in(way.circuit.device_standard),
        standard_in(way.circuit.rcd_standard),
    }


def _rings_by_formula(job: Job, rings: Sequence[Way]) -> Iterator[Finding]:
    measured = [way for way in rings if None not in _ends(way.circuit)]
    enough = tolerance("rings that follow a formula", job.edition)
    if len(measured) < enough.value or not all(_follows_a_formula(way.circuit, job.edition) for way in measured):
        return
    yield _found(
        job,
        measured[0].at("ring_r1"),
        Severity.ASK,
        "rings-by-formula",
        source=enough.source,
        measured=phrase("count-of-rings", count=len(measured), read=len(measured)),
        typed={"readings": readings_of(_read_on(measured, "ring_r1", "ring_rn", "ring_r2", "r1_r2"))},
        count=len(measured),
    )


def _ends(circuit: Circuit) -> tuple[Decimal | None, ...]:
    return (circuit.ring_r1.figure, circuit.ring_rn.figure, circuit.ring_r2.figure, circuit.r1_r2.figure)


def _follows_a_formula(circuit: Circuit, edition: Edition) -> bool:
    r1, rn, r2, crossed = _ends(circuit)
    if r1 is None or rn is None or r2 is None or crossed is None or r1 != rn:
        return False
    return any(_is_rounded(r1 * ratio, r2) for ratio in _ratios(circuit, edition)) and _is_rounded(
        (r1 + r2) / 4, crossed
    )


def _ratios(circuit: Circuit, edition: Edition) -> Iterator[Decimal]:
    line, cpc, tabulated = circuit.live_csa.figure, circuit.cpc_csa.figure, by_the_metre(circuit, edition)
    if line is not None and cpc is not None and cpc > 0:
        yield line / cpc
        yield half_up(line / cpc, 2)
    if tabulated:
        yield tabulated[1].value / tabulated[0].value


def _is_rounded(exact: Decimal, shown: Decimal) -> bool:
    """The figure is the exact one at the places it is written with."""
    exponent = shown.as_tuple().exponent
    return isinstance(exponent, int) and abs(exact - shown) <= Decimal(1).scaleb(exponent) / 2
