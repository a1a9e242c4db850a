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
_SAYS: Mapping[str, tuple[str, str]] = {
    "polarity": ("Polarity is marked not correct; put it right before anything is energised", "643.6"),
    "phase_sequence": ("Phase sequence is marked not correct; put it right before three-phase equipment runs", "643.9"),
    "spd_indicator": ("The surge protective device shows that it no longer protects; replace it", "643.10"),
    "rcd_button": ("The RCD did not open on its test button; replace it", "643.10"),
    "afdd_button": ("The AFDD did not open on its test button; replace it", "643.10"),
    "conductor_verified": ("The earthing conductor is marked not sound or not connected; put it right", "643.2.1"),
    "bonding_verified": ("Main bonding is marked not sound or not connected; put it right", "643.2.1"),
    "bonded_water": (
        "The water pipe is marked as not bonded; bond it, or mark N/A where there is nothing to bond",
        "411.3.1.2",
    ),
    "bonded_gas": (
        "The gas pipe is marked as not bonded; bond it, or mark N/A where there is nothing to bond",
        "411.3.1.2",
    ),
    "bonded_oil": (
        "The oil pipe is marked as not bonded; bond it, or mark N/A where there is nothing to bond",
        "411.3.1.2",
    ),
    "bonded_steel": (
        "The structural steel is marked as not bonded; bond it, or mark N/A where there is nothing to bond",
        "411.3.1.2",
    ),
    "bonded_lightning": (
        "The lightning protection is marked as not bonded; bond it, or mark N/A where there is nothing to bond",
        "411.3.1.2",
    ),
}


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
            says, regulation = _SAYS[name]
            place = Place(section=section, board=board, circuit=circuit, box=name)
            source = Source(standard=str(job.edition), table=regulation, trust=Trust.MEMORY)
            yield _found(job, place, Severity.FAILS, says, limit="✓", source=source)


@cache
def _ticks(owner: type[BaseModel]) -> tuple[str, ...]:
    return tuple(name for name in _SAYS if name in boxes_of(owner))
