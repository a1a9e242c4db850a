"""Ze against what the declared system usually has, and Zs against the impedance before the circuit."""

from collections.abc import Iterator
from decimal import Decimal

from domain.board import Board
from domain.checks.tabulated import is_tt
from domain.checks.ways import board_place, is_at_origin, ways_in_use
from domain.finding import Finding, Severity
from domain.job import Job
from domain.limits.limit import Limit
from domain.limits.loader import table
from domain.place import Place
from domain.reading import Reading

_CHECK = "external-impedance"


def external_impedance(job: Job) -> Iterator[Finding]:
    """Ze that suits another system, or the other way about; and Zs below what lies before the circuit."""
    yield from _against_system(job)
    for board in job.boards:
        if board.zs.figure is not None and board.zs.figure < 0:
            yield _negative(board_place(board, "zs"), board.zs)
    if job.supply.ze.figure is not None and job.supply.ze.figure < 0:
        yield _negative(Place(section="supply", box="ze"), job.supply.ze)
    for way in ways_in_use(job):
        zs = way.circuit.zs
        if zs.figure is None:
            continue
        if zs.figure < 0:
            yield _negative(way.at("zs"), zs)
            continue
        before, name = _before(job, way.board)
        if before.figure is not None and zs.figure < before.figure:
            says = (
                f"Zs {zs.shown} Ω is below {name} {before.shown} Ω, which is part of it. "
                "Parallel earth paths can do that; otherwise one of the two is wrong"
            )
            yield _finding(way.at("zs"), zs, f"at least {before.shown} Ω", None, says)
        elif job.supply.ze.figure is None and is_tt(job):
            yield from _too_low_for_tt(job, way.at("zs"), zs, "Zs")


def _before(job: Job, board: Board) -> tuple[Reading, str]:
    if board.zs.figure is not None or not is_at_origin(job, board):
        return board.zs, "Zdb"
    return job.supply.ze, "Ze"


def _against_system(job: Job) -> Iterator[Finding]:
    ze, place = job.supply.ze, Place(section="supply", box="ze")
    if ze.value is None or ze.value < 0:
        return
    if is_tt(job):
        yield from _too_low_for_tt(job, place, ze, "Ze")
        return
    declared = _declared(job, job.supply.system.strip().upper())
    if declared and _is_above(ze, declared.value):
        says = (
            f"Ze {ze.shown} Ω is over {declared.shown}, the most usually declared for {job.supply.system.strip()}. "
            "Is the system right, and the earth sound? The distributor may have declared more"
        )
        yield _finding(place, ze, declared.shown, declared, says)


def _is_above(reading: Reading, value: Decimal) -> bool:
    return reading.figure is not None and reading.figure > value


def _too_low_for_tt(job: Job, place: Place, reading: Reading, name: str) -> Iterator[Finding]:
    cable_earth = _declared(job, "TN-S")
    if cable_earth and reading.figure is not None and reading.figure <= cable_earth.value:
        says = (
            f"{name} {reading.shown} Ω is what a cable earth gives ({cable_earth.shown} or less on TN-S), "
            "not an electrode. Is the system TT?"
        )
        yield _finding(place, reading, f"over {cable_earth.shown}", cable_earth, says)


def _declared(job: Job, system: str) -> Limit | None:
    return table("declared_ze", job.edition).limit("ze", system)


def _negative(place: Place, reading: Reading) -> Finding:
    return _finding(place, reading, "", None, f"{reading.shown} Ω is less than nothing; repeat the test")


def _finding(place: Place, reading: Reading, limit: str, figure: Limit | None, says: str) -> Finding:
    return Finding(
        check=_CHECK,
        place=place,
        severity=Severity.ASK,
        measured=f"{reading.shown} Ω",
        limit=limit,
        source=figure.source if figure else None,
        says=says,
    )
