"""What was looked at or tried and found not to be right: polarity, earthing, bonding, buttons, indicators."""

from collections.abc import Iterator, Mapping
from functools import cache

from pydantic import BaseModel

from domain.checks.shared.finding_factory import FindingFactory
from domain.job.box import boxes_of
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning, Reading
from domain.place import Place
from domain.source import Source, Trust

_found = FindingFactory("confirmed")
_REGULATIONS: Mapping[str, str] = {
    "polarity": "643.6",
    "phase_sequence": "643.9",
    "spd_indicator": "643.10",
    "rcd_button": "643.10",
    "afdd_button": "643.10",
    "conductor_verified": "643.2.1",
    "bonding_verified": "643.2.1",
    "bonded_water": "411.3.1.2",
    "bonded_gas": "411.3.1.2",
    "bonded_oil": "411.3.1.2",
    "bonded_steel": "411.3.1.2",
    "bonded_lightning": "411.3.1.2",
}
"""The boxes of a tick, each a case of its own, with the regulation that asks for it (from memory)."""


def confirmed(job: Job) -> Iterator[Finding]:
    """A box meant for a tick that holds a cross."""
    yield from _crosses(job, job.supply, section="supply")
    yield from _crosses(job, job.earthing, section="earthing")
    for board in job.boards:
        yield from _crosses(job, board, section="boards", board=board.id)
        for circuit in board.circuits:
            if not circuit.is_spare:
                yield from _crosses(job, circuit, section="boards", board=board.id, circuit=circuit.id)


def _crosses(job: Job, owner: BaseModel, *, section: str, board: str = "", circuit: str = "") -> Iterator[Finding]:
    for name in _ticks(type(owner)):
        reading: Reading = getattr(owner, name)
        if reading.meaning is Meaning.CROSS and boxes_of(type(owner))[name].is_asked(job.form_set):
            place = Place(section=section, board=board, circuit=circuit, box=name)
            source = Source(standard=str(job.edition), table=_REGULATIONS[name], trust=Trust.MEMORY)
            yield _found(job, place, Severity.FAILS, name, limit="✓", source=source)


@cache
def _ticks(owner: type[BaseModel]) -> tuple[str, ...]:
    return tuple(name for name in _REGULATIONS if name in boxes_of(owner))
