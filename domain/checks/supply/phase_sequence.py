"""Phase sequence where it can be tested."""

from collections.abc import Iterator

from domain.checks.shared.circuits_in_use import board_place
from domain.checks.shared.finding_factory import FindingFactory
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning

_found = FindingFactory("phase-sequence")


def phase_sequence(job: Job) -> Iterator[Finding]:
    """A board of three phases has a sequence to test, so that it cannot be marked N/A."""
    for board in job.boards if job.profile.has_schedules else ():
        if board.phases.strip() == "3" and board.phase_sequence.meaning is Meaning.NOT_APPLICABLE:
            place, typed = board_place(board, "phase_sequence"), {"phases": board.phases.strip()}
            yield _found(job, place, Severity.ASK, "marked-n-a", typed=typed, board=board.name)
