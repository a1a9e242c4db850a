"""Arc fault and surge protection, where the rules on them depend on the premises or on what the owner says."""

import re
from collections.abc import Iterator
from decimal import Decimal

from domain.checks.shared.cables import has_three_phases
from domain.checks.shared.circuits_in_use import Way, board_place, is_at_origin, ways_in_use
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.severities import shortfall
from domain.checks.shared.system import is_reduced_low_voltage
from domain.checks.shared.uses import is_shared_living, use_of
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure
from domain.job.board import Board
from domain.job.box import answers_in
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning, Reading
from domain.regulation import regulation
from domain.value import says_nothing

_found = FindingFactory("recommended")
_FINE, _COARSE = "T3", re.compile(r"[12]")
_NEW_BOARDS = {"new", "a replaced consumer unit"}


def recommended(job: Job) -> Iterator[Finding]:
    """Surge protection is noted only: whether it must be there depends on more than the papers hold."""
    most = named_figure("afdd_and_spd", "AFDD on single-phase socket circuits up to", job.edition)
    if is_shared_living(job):
        yield from _arc_fault_detection(job, most)
    if (
        job.profile.covers_new_work
        and not is_reduced_low_voltage(job)
        and _NEW_BOARDS.intersection(answers_in(job.work.kind))
    ):
        yield from _surge_protection(job)
    yield from _fine_protection_alone(job)


def _arc_fault_detection(job: Job, most: Limit) -> Iterator[Finding]:
    lacking = [way for way in ways_in_use(job) if _lacks_detection(way, most.value)]
    if not lacking:
        return
    numbers = ", ".join(f"{way.board.name} {way.circuit.number.strip()}" for way in lacking)
    severity = Severity.ASK if job.profile.covers_new_work else Severity.NOTE
    yield _found(
        job,
        lacking[0].at("afdd_button"),
        severity,
        "arc-fault-detection",
        source=most.source,
        typed={"use": job.premises.use.strip(), "lacking": " ".join(way.circuit.id for way in lacking)},
        most=most,
        use=job.premises.use.strip(),
        circuits=numbers,
        caution=most.caution,
    )


def _lacks_detection(way: Way, most: Decimal) -> bool:
    rating = way.circuit.rating.figure
    return (
        way.circuit.afdd_button.meaning is Meaning.NOT_APPLICABLE
        and says_nothing(way.circuit.afdd_standard)
        and use_of(way.circuit).sockets
        and not has_three_phases(way)
        and rating is not None
        and rating <= most
    )


def _surge_protection(job: Job) -> Iterator[Finding]:
    typed = [Reading.of(board.spd_type).meaning for board in job.boards]
    if any(meaning is not Meaning.NOT_APPLICABLE for meaning in typed):
        return
    origin: Board | None = next((board for board in job.boards if is_at_origin(job, board)), None)
    if origin:
        source = regulation("surge protection", job.edition)
        place = board_place(origin, "spd_type")
        yield _found(job, place, Severity.NOTE, "surge-protection", source=source, measured="N/A")


def _fine_protection_alone(job: Job) -> Iterator[Finding]:
    """A device of type 3 stands beside what it protects, after one of type 2: alone at the origin it is none."""
    kinds = {board.id: board.spd_type.replace(" ", "").upper() for board in job.boards}
    if any(_COARSE.search(kind) for kind in kinds.values()):
        return
    for board in job.boards:
        if kinds[board.id] in {_FINE, "3"} and is_at_origin(job, board):
            source = regulation("surge protection", job.edition)
            yield _found(job, board_place(board, "spd_type"), shortfall(job), "fine-protection-alone", source=source)
