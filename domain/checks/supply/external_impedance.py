"""Ze against what the declared system usually has, and Zs against the impedance before the circuit."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from domain.checks.shared.circuits_in_use import Way, board_place, is_at_origin, ways_in_use
from domain.checks.shared.decimal_slip import did_you_mean
from domain.checks.shared.expected import impedance_before
from domain.checks.shared.finding_factory import FindingFactory, readings_of
from domain.checks.shared.phrases import phrase
from domain.checks.shared.system import is_tn, is_tt
from domain.checks.shared.tolerances import is_majority, near, tolerance
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import table
from domain.figures.units import Ohms
from domain.forms.box_group import BoxGroup
from domain.job.board import Board
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Reading
from domain.place import Place

_found = FindingFactory("external-impedance")


def external_impedance(job: Job) -> Iterator[Finding]:
    """Ze that suits another system, or the other way about; and Zs below what lies before the circuit."""
    yield from _against_system(job)
    yield from _boards_alone(job)
    for board in job.boards:
        if board.zs.figure is not None and board.zs.figure < 0:
            yield _negative(job, board_place(board, "zs"), board.zs)
    if job.supply.ze.figure is not None and job.supply.ze.figure < 0:
        yield _negative(job, Place(section="supply", box="ze"), job.supply.ze)
    below: dict[str, list[Finding]] = {board.id: [] for board in job.boards}
    read = dict.fromkeys(below, 0)
    scatter = tolerance("Zs on TT may read under Zdb by share", job.edition).value if is_tt(job) else Decimal(0)
    for way in ways_in_use(job):
        zs = way.circuit.zs
        if zs.figure is None:
            continue
        read[way.board.id] += 1
        before, name = impedance_before(job, way.board)
        if zs.figure < 0:
            yield _negative(job, way.at("zs"), zs)
        elif before.figure is not None and zs.figure < before.figure * (1 - scatter):
            below[way.board.id].append(_below(job, way, before, name))
        elif job.supply.ze.figure is None and is_tt(job):
            yield from _too_low_for_tt(job, way.at("zs"), zs, "Zs")
    for board in job.boards:
        yield from _said_once(job, board, below[board.id], read[board.id])


def _below(job: Job, way: Way, before: Reading[Ohms], name: str) -> Finding:
    zs, inside, slip = way.circuit.zs, way.circuit.r1_r2.figure, ""
    if inside is not None and before.figure is not None:
        slip = did_you_mean(zs, "Ω", near(before.figure + inside, job.edition))
    return _found(
        job,
        way.at("zs"),
        Severity.ASK,
        "zs-below",
        limit=phrase("at-least", figure=f"{before.shown} Ω"),
        zs=zs,
        name=name,
        before=before,
        next=slip or phrase("parallel-or-one-of-two-wrong"),
    )


def _said_once(job: Job, board: Board, below: Sequence[Finding], read: int) -> Iterator[Finding]:
    """Where most circuits read below it, it is the figure before them that is asked about."""
    before, name = impedance_before(job, board)
    if not is_majority(below, range(read), job.edition):
        yield from below
        return
    place = board_place(board, "zs") if board.zs.figure is not None else Place(section="supply", box="ze")
    yield _found(
        job,
        place,
        Severity.ASK,
        "most-zs-below",
        typed={"readings": readings_of((way.id, way.zs) for way in board.circuits)},
        count=len(below),
        read=read,
        board=board.name,
        name=name,
        before=before,
    )


def _against_system(job: Job) -> Iterator[Finding]:
    ze, place = job.supply.ze, Place(section="supply", box="ze")
    if ze.value is None or ze.value < 0:
        return
    if is_tt(job):
        yield from _too_low_for_tt(job, place, ze, "Ze")
        return
    declared = _declared(job, job.supply.system.strip().upper())
    if declared and _is_above(ze, declared.value):
        yield _found(
            job,
            place,
            Severity.ASK,
            "ze-above-declared",
            limit=declared,
            typed={"system": job.supply.system.strip()},
            ze=ze,
            system=job.supply.system.strip(),
            next=_ze_meant(job) or phrase("system-or-earth"),
        )


def _boards_alone(job: Job) -> Iterator[Finding]:
    """Where the form has no Ze, Zdb tells of it: more than any cable earth gives wants a reason, such as a long submain."""
    most = _declared(job, "TN-S") if is_tn(job) and not job.profile.takes(BoxGroup.ORIGIN) else None
    for board in job.boards:
        if most and _is_above(board.zs, most.value):
            system = job.supply.system.strip() or "TN"
            yield _found(
                job,
                board_place(board, "zs"),
                Severity.ASK,
                "zdb-above-declared",
                limit=most,
                typed={"system": system},
                zdb=board.zs,
                system=system,
                board=board.name,
            )


def _ze_meant(job: Job) -> str:
    """What Ze would be with its point moved, where that is about Zdb at the origin."""
    zdb = next((board.zs.figure for board in job.boards if is_at_origin(job, board) and board.zs.figure), None)
    return did_you_mean(job.supply.ze, "Ω", near(zdb, job.edition)) if zdb is not None and zdb > 0 else ""


def _is_above(reading: Reading, value: Decimal) -> bool:
    return reading.figure is not None and reading.figure > value


def _too_low_for_tt(job: Job, place: Place, reading: Reading, name: str) -> Iterator[Finding]:
    cable_earth = _declared(job, "TN-S")
    if cable_earth and reading.figure is not None and reading.figure <= cable_earth.value:
        yield _found(
            job,
            place,
            Severity.ASK,
            "too-low-for-tt",
            limit=phrase("over", figure=cable_earth.shown),
            source=cable_earth.source,
            name=name,
            reading=reading,
            cable_earth=cable_earth,
        )


def _declared(job: Job, system: str) -> Limit | None:
    return table("declared_ze", job.edition).limit("ze", system)


def _negative(job: Job, place: Place, reading: Reading) -> Finding:
    return _found(job, place, Severity.ASK, "negative", reading=reading)
