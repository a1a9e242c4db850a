"""Boxes of a circuit that contradict each other: readings on a spare way, N/A against what does exist, words against boxes."""

import re
from collections.abc import Iterator

from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.part_by_part import of_each_way
from domain.checks.shared.phrases import phrase
from domain.figures.limits.device import RCBO, standard_in
from domain.job.board import Board
from domain.job.box import boxes_of
from domain.job.circuit import RESULT_BOXES, Circuit
from domain.job.circuit_details import RADIAL
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning, Reading
from domain.place import Place
from domain.value import says_nothing

_found = FindingFactory("contradiction")
_TAKEN = {Meaning.VALUE, Meaning.OVER, Meaning.UNDER, Meaning.TICK, Meaning.CROSS}
_MARKS = {Meaning.LIMITATION, Meaning.NOT_VERIFIED}
_ALWAYS = ("ir_earth", "polarity", "zs")
_ON_A_RING = ("ring_r1", "ring_rn", "ring_r2", "r1_r2")
_CPC_OF_COPPER = {"A", "C", "E"}
"""Wiring in sheathed cable or plastic, whose cpc is a conductor with a size."""
_WITH_AN_RCD = ("rcd_time", "rcd_button")
_SAYS_RING = re.compile(
    r"\bring (?:final|main|circuit)\b|\brfc\b|\bsockets?,? (?:on a )?ring\b|\bring,? sockets?\b", re.IGNORECASE
)
_SAYS_RADIAL = re.compile(r"\bradials?\b", re.IGNORECASE)


def contradictions(job: Job) -> Iterator[Finding]:
    """A spare way has nothing to read; what a circuit has cannot be not applicable."""
    for board, circuit in job.circuits():
        if circuit.is_spare:
            yield from _readings_on_a_spare(job, board, circuit)
    yield from _of_ways(job)


@of_each_way
def _of_ways(job: Job, way: Way) -> Iterator[Finding]:
    for box in _applicable(way):
        reading: Reading = getattr(way.circuit, box)
        if reading.meaning is Meaning.NOT_APPLICABLE:
            said = {"label": boxes_of(Circuit)[box].label, "reason": _reason(box)}
            yield _found(job, way.at(box), Severity.ASK, "marked-n-a", said=said)
    yield from _described_otherwise(job, way)
    yield from _arc_fault_device(job, way)
    yield from _residual_device(job, way)
    yield from _protective_conductor(job, way)


def _applicable(way: Way) -> tuple[str, ...]:
    """An RCD that serves several circuits may have its time in the header of the board, or as the main switch."""
    circuit = way.circuit
    has_own = circuit.has_rcd and (not way.rcds_at_board or standard_in(circuit.rcd_standard) == RCBO)
    return (
        *(_ON_A_RING if circuit.is_ring else ()),
        *_ALWAYS,
        *(_WITH_AN_RCD if has_own else ()),
    )


def _reason(box: str) -> str:
    if box in _ON_A_RING:
        return phrase("it-is-a-ring")
    if box in _WITH_AN_RCD:
        return phrase("it-has-an-rcd")
    return phrase("every-circuit-has-one")


def _described_otherwise(job: Job, way: Way) -> Iterator[Finding]:
    circuit = way.circuit
    shape = circuit.shape.strip()
    is_radial = shape.casefold() == RADIAL
    if (is_radial and _SAYS_RING.search(circuit.description)) or (
        circuit.is_ring and _SAYS_RADIAL.search(circuit.description)
    ):
        said = {"description": circuit.description.strip(), "shape": shape}
        yield _found(job, way.at("shape"), Severity.ASK, "described-otherwise", typed=said, said=said)


def _arc_fault_device(job: Job, way: Way) -> Iterator[Finding]:
    circuit = way.circuit
    standard, button = circuit.afdd_standard.strip(), circuit.afdd_button
    is_named = not says_nothing(standard)
    if is_named and Reading.of(standard).meaning not in _MARKS and button.meaning is Meaning.NOT_APPLICABLE:
        place, typed = way.at("afdd_button"), {"afdd_standard": standard}
        yield _found(job, place, Severity.ASK, "afdd-button-marked-n-a", typed=typed, standard=standard)


def _protective_conductor(job: Job, way: Way) -> Iterator[Finding]:
    """R1+R2 or R2 was read, so there is a cpc; only steel or a metal sheath leaves it without a size of its own."""
    circuit = way.circuit
    if circuit.cpc_csa.meaning is not Meaning.NOT_APPLICABLE or circuit.wiring.strip().upper() not in _CPC_OF_COPPER:
        return
    read = next((box for box in ("r1_r2", "r2") if getattr(circuit, box).meaning in _TAKEN), None)
    if read:
        label, reading = boxes_of(Circuit)[read].label, getattr(circuit, read)
        yield _found(
            job, way.at("cpc_csa"), Severity.ASK, "cpc-marked-n-a", typed={"read": reading.typed}, label=label, reading=reading
        )  # fmt: skip


def _residual_device(job: Job, way: Way) -> Iterator[Finding]:
    circuit = way.circuit
    if circuit.has_rcd or not circuit.rcd_standard.strip():
        return
    if standard_in(circuit.device_standard) == RCBO:
        yield _found(job, way.at("rcd_standard"), Severity.ASK, "rcbo-without-rcd", standard=RCBO)
    elif circuit.rcd_button.meaning in _TAKEN and not way.rcds:
        typed = {"rcd_standard": circuit.rcd_standard.strip()}
        yield _found(job, way.at("rcd_button"), Severity.ASK, "button-without-rcd", typed=typed)


def _readings_on_a_spare(job: Job, board: Board, circuit: Circuit) -> Iterator[Finding]:
    readings: list[tuple[str, object]] = [(box, getattr(circuit, box)) for box in RESULT_BOXES]
    taken = [
        (box, reading.shown) for box, reading in readings if isinstance(reading, Reading) and reading.meaning in _TAKEN
    ]
    if taken:
        box, shown = taken[0]
        place = Place(section="boards", board=board.id, circuit=circuit.id, box=box)
        yield _found(job, place, Severity.ASK, "results-on-a-spare", measured=shown)
