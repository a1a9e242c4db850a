"""What was looked at or tried and found not to be right: polarity, earthing, bonding, buttons, indicators."""

from collections.abc import Iterator, Mapping
from functools import cache

from pydantic import BaseModel

from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.part_by_part import WaysOfBoard, board_by_board
from domain.checks.shared.uses import use_of
from domain.job.box import boxes_of
from domain.job.earthing import BONDED
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning, Reading
from domain.place import Place
from domain.regulation import regulation
from domain.source import Source
from domain.value import says_nothing

_found = FindingFactory("confirmed")
_ELSEWHERE = frozenset(BONDED)
"""What may be lacking elsewhere in an installation of which a minor works certificate covers one circuit."""
_REGULATIONS: Mapping[str, str] = {
    "polarity": "polarity",
    "phase_sequence": "phase sequence",
    "spd_indicator": "functional tests",
    "rcd_button": "functional tests",
    "afdd_button": "functional tests",
    "conductor_verified": "continuity of conductors",
    "bonding_verified": "continuity of conductors",
    "bonded_water": "main bonding",
    "bonded_gas": "main bonding",
    "bonded_oil": "main bonding",
    "bonded_steel": "main bonding",
    "bonded_lightning": "main bonding",
}
"""The boxes of a tick, each a case of its own, with the regulation that asks for it (from memory)."""


def confirmed(job: Job) -> Iterator[Finding]:
    """A box meant for a tick that holds a cross."""
    yield from _crosses(job, job.supply, section="supply")
    yield from _crosses(job, job.earthing, section="earthing")
    yield from (finding for _, finding in _on_boards(job))


def _on_a_board(job: Job, held: WaysOfBoard) -> Iterator[Finding]:
    board = held.board
    yield from _crosses(job, board, section="boards", board=board.id)
    for way in held.ways:
        yield from _crosses(job, way.circuit, section="boards", board=board.id, circuit=way.circuit.id)


_on_boards = board_by_board(_on_a_board)


def _crosses(job: Job, owner: BaseModel, *, section: str, board: str = "", circuit: str = "") -> Iterator[Finding]:
    for name in _ticks(type(owner)):
        reading: Reading = getattr(owner, name)
        if reading.meaning is Meaning.CROSS and boxes_of(type(owner))[name].is_asked(job.form_set):
            place = Place(section=section, board=board, circuit=circuit, box=name)
            source = regulation(_REGULATIONS[name], job.edition)
            if job.profile.covers_one_circuit and name in _ELSEWHERE and not _rests_on_bonding(job):
                yield _elsewhere(job, place, name, source)
            else:
                yield _found(job, place, Severity.FAILS, name, limit="✓", source=source)


def _rests_on_bonding(job: Job) -> bool:
    """In a room with a bath, supplementary bonding is left out only where main bonding is whole (701.415.2, from memory)."""
    return any(use_of(circuit).bath for _, circuit in job.circuits())


def _elsewhere(job: Job, place: Place, name: str, source: Source) -> Finding:
    """A part of the installation that the work did not touch, and its circuit does not rest on: commented on, not held."""
    is_commented = not says_nothing(job.work.comments)
    severity, case = (Severity.NOTE, "elsewhere-commented") if is_commented else (Severity.ASK, "elsewhere")
    label = boxes_of(type(job.earthing))[name].label
    return _found(
        job, place, severity, case, limit="✓", source=source, typed={"comments": job.work.comments.strip()}, label=label
    )


@cache
def _ticks(owner: type[BaseModel]) -> tuple[str, ...]:
    return tuple(name for name in _REGULATIONS if name in boxes_of(owner))
