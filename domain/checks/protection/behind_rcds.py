"""What stands behind an RCD: its rating against what protects it, how much hangs on it, and RCDs one behind the other."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from domain.checks.shared.circuits_in_use import Way, board_place, numbers_of
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.loading import demand_of
from domain.checks.shared.part_by_part import WaysOfBoard, board_by_board, of_each_way, ways_by_board
from domain.checks.shared.rcds import Rcd, board_rcd, own_rcd, switch_rcd
from domain.checks.shared.severities import shortfall
from domain.checks.shared.tolerances import tolerance
from domain.figures.formulas.rounding import half_up, written
from domain.figures.limits.device import RCBO, standard_in
from domain.figures.limits.loader import table
from domain.figures.units import Amperes
from domain.forms.box_group import BoxGroup
from domain.job.board import Board
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Reading
from domain.place import Place
from domain.regulation import regulation
from domain.value import says_nothing

_found = FindingFactory("behind-rcds")
_SHARED = ("rcd_type", "rcd_idn", "rcd_rating", "rcd_time")
"""What is alike on circuits of a board behind one RCD that the schedule names for each of them."""


def behind_rcds(job: Job) -> Iterator[Finding]:
    """An RCD is protected against overload, does not put out the whole installation, and waits for the one behind it."""
    yield from _own_rating(job)
    yield from (finding for _, finding in _of_boards(job))
    if job.profile.takes(BoxGroup.ORIGIN) and len(job.boards) == 1:
        yield from _all_behind_one(job, *ways_by_board(job)[0])


def _of_a_board(job: Job, held: WaysOfBoard) -> Iterator[Finding]:
    board, ways = held
    for group in _groups(ways):
        yield from _sum(job, group[0].at("rcd_rating"), group[0].circuit.rcd_rating, group, board)
    if board.has_rcd:
        yield from _sum(job, board_place(board, "rcd_rating"), board.rcd_rating, ways, board)
    yield from _one_after_another(job, board, ways)


_of_boards = board_by_board(_of_a_board)


@of_each_way
def _own_rating(job: Job, way: Way) -> Iterator[Finding]:
    """The RCD of one circuit carries what its device lets through; an RCBO is both, and its one rating is typed twice."""
    rating, device = way.circuit.rcd_rating, way.circuit.rating
    if not way.circuit.has_rcd or rating.figure is None or device.figure is None or rating.figure >= device.figure:
        return
    source = regulation("RCD against overload", job.edition)
    severity, case = (Severity.ASK, "rcbo-under-itself") if _is_rcbo(way) else (shortfall(job), "under-its-device")
    yield _found(
        job, way.at("rcd_rating"), severity, case, limit=f"{device.shown} A", source=source,
        rating=rating, device=device,
    )  # fmt: skip


def _groups(ways: Sequence[Way]) -> Iterator[tuple[Way, ...]]:
    """Circuits that share an RCD of their own, as all that is said of it is alike; RCBOs share nothing."""
    found: dict[tuple[str, ...], list[Way]] = {}
    for way in ways:
        circuit = way.circuit
        if circuit.has_rcd and not _is_rcbo(way) and circuit.rcd_rating.figure is not None:
            found.setdefault(tuple(_typed(way, box) for box in _SHARED), []).append(way)
    yield from (tuple(group) for group in found.values() if len(group) > 1)


def _typed(way: Way, box: str) -> str:
    held: Reading | str = getattr(way.circuit, box)
    return held.strip() if isinstance(held, str) else held.typed


def _is_rcbo(way: Way) -> bool:
    return RCBO in {standard_in(way.circuit.rcd_standard), standard_in(way.circuit.device_standard)}


def _sum(job: Job, place: Place, rating: Reading[Amperes], ways: Sequence[Way], board: Board) -> Iterator[Finding]:
    """The device before it protects an RCD, or else what hangs on it cannot add up to more than it carries."""
    before = board.device_rating if not says_nothing(board.device_standard) else job.supply.device_rating
    total = demand_of(ways)
    if not ways or rating.figure is None or total <= rating.figure or (before.figure or total) <= rating.figure:
        return
    yield _found(
        job, place, shortfall(job), "sum-over-rating", limit=f"{rating.shown} A", source=regulation("RCD against overload", job.edition),
        measured=f"{written(half_up(total, 1))} A", typed={"devices": " ".join(way.circuit.rating.typed for way in ways)},
        rating=rating, before=before, total=written(half_up(total, 1)), circuits=numbers_of(ways), board=board.name,
    )  # fmt: skip


def _all_behind_one(job: Job, board: Board, ways: Sequence[Way]) -> Iterator[Finding]:
    """One RCD before every circuit puts everything out at once."""
    if len(ways) < tolerance("circuits behind one RCD", job.edition).value:
        return
    switch, header = switch_rcd(job), board_rcd(board)
    group = next((each for each in _groups(ways) if len(each) == len(ways)), ())
    found = (
        (header, board_place(board, "rcd_type")) if header else
        (switch, Place(section="main_switch", box="rcd_type")) if switch else
        (own_rcd(group[0].circuit), group[0].at("rcd_type")) if group else
        (None, Place())
    )  # fmt: skip
    rcd, place = found
    if rcd is None or rcd.is_delayed or (rcd.idn.figure or 0) > _sensitive(job):
        return
    yield _found(
        job, place, shortfall(job), "all-behind-one", source=regulation("division of circuits", job.edition), measured=rcd.kind.strip(),
        typed={"circuits": str(len(ways))}, count=len(ways), board=board.name,
    )  # fmt: skip


def _sensitive(job: Job) -> Decimal:
    found = table("rcd_required", job.edition).limit("idn_up_to", "411.3.3", "socket-outlets up to 32 A")
    assert found
    return found.value


def _one_after_another(job: Job, board: Board, ways: Sequence[Way]) -> Iterator[Finding]:
    """Both open at a fault unless the one before waits; said once for each RCD that does not."""
    said: dict[str, list[Way]] = {}
    before: dict[str, Rcd] = {}
    for way in ways:
        own, *others = way.rcds or (None,)
        if own is None or not others or not _is_rcbo(way) or own.idn.figure is None:
            continue
        for rcd in others:
            if not rcd.is_delayed and rcd.idn.figure is not None:
                said.setdefault(rcd.named, []).append(way)
                before[rcd.named] = rcd
    for named, behind in said.items():
        rcd = before[named]
        place = (
            board_place(board, "rcd_type")
            if board.has_rcd and rcd == board_rcd(board)
            else _place_before(job, rcd, behind[0])
        )
        yield _found(
            job, place, shortfall(job), "no-delay", source=regulation("RCDs in series", job.edition), measured=rcd.kind.strip(),
            typed={"behind": " ".join(way.circuit.rcd_idn.typed for way in behind)}, rcd=named, idn=rcd.idn,
            circuits=numbers_of(behind), board=board.name,
        )  # fmt: skip


def _place_before(job: Job, rcd: Rcd, way: Way) -> Place:
    return Place(section="main_switch", box="rcd_type") if rcd == switch_rcd(job) else way.at("rcd_type")
