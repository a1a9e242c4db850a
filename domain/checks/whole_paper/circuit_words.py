"""Boxes of a circuit whose words deny each other or mean nothing: how the cable is laid, what it feeds, which line it is on."""

import re
from collections.abc import Iterator

from domain.checks.shared.cables import method_in
from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.part_by_part import of_each_way
from domain.checks.shared.severities import shortfall
from domain.checks.shared.sources import sources_told
from domain.checks.shared.uses import told_of_lights, told_of_vehicles
from domain.figures.limits.device import RCBO, kind_of, standard_in
from domain.figures.limits.loader import named_figure
from domain.job.box import answers_in
from domain.job.circuit_use import ALARM, CHARGING_POINT, EXTRA_LOW, LIGHTING, OTHER, SHOWER, SOURCES, SUB_BOARD
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Reading
from domain.regulation import regulation
from domain.value import is_hollow, says_nothing

_found = FindingFactory("circuit-words")
_WIRING = {"A", "B", "C", "D", "E", "F", "G", "H", "O"}
_OTHER_WIRING, _SHEATHED, _IN_THE_GROUND = "O", "A", "d"
_ENCLOSED, _CLIPPED = {"B", "C", "D", "E"}, {"c", "e", "f", "g", "100", "101", "102", "103"}
"""Letters of conduit and trunking; methods of cables clipped, on trays, in free air or flat in insulation."""
_SAYS_DUCT = re.compile(r"\bduct|\bconduit|\bpipe|\btrunking", re.IGNORECASE)
_NO_LINE = re.compile(r"(?<![A-Za-z])L([04-9])\b", re.IGNORECASE)
_A_LETTER, _A_FIGURE = re.compile(r"[A-Za-z]"), re.compile(r"[0-9]")
_RCD_TYPE = re.compile(r"(?<![A-Za-z])(?:AC|A|B|F|S)(?![A-Za-z])|delay|selective", re.IGNORECASE)
_OPEN = {SUB_BOARD, OTHER}
"""What may stand for anything that a description tells of."""


@of_each_way
def circuit_words(job: Job, way: Way) -> Iterator[Finding]:
    """Wiring, method, number, use and devices of a circuit are among those there are, and fit each other."""
    yield from _laid(job, way)
    yield from _numbered(job, way)
    yield from _fed(job, way)
    yield from _two_devices(job, way)
    yield from _device_named(job, way)
    yield from _points(job, way)


def _laid(job: Job, way: Way) -> Iterator[Finding]:
    circuit = way.circuit
    wiring, method = circuit.wiring.strip(), method_in(circuit.method)
    if wiring and not Reading.of(wiring).is_mark:
        if wiring.upper() not in _WIRING and (len(wiring) == 1 or not _A_LETTER.search(wiring)):
            yield _found(job, way.at("wiring"), Severity.ASK, "no-such-wiring", wiring=wiring)
        elif wiring.upper() == _OTHER_WIRING and is_hollow(circuit.remarks):
            yield _found(
                job, way.at("wiring"), Severity.ASK, "other-wiring", typed={"remarks": circuit.remarks.strip()}
            )
    typed = circuit.method.strip()
    if typed.isalnum() and not method and not says_nothing(typed) and not Reading.of(typed).is_mark:
        yield _found(job, way.at("method"), Severity.ASK, "no-such-method", method=typed)
    if wiring.upper() in _ENCLOSED and method in _CLIPPED:
        said = {"wiring": wiring.upper(), "method": typed}
        yield _found(job, way.at("method"), Severity.ASK, "enclosed-and-clipped", typed={"wiring": wiring}, said=said)
    words = f"{circuit.remarks} {circuit.description}"
    if wiring.upper() == _SHEATHED and method == _IN_THE_GROUND and not _SAYS_DUCT.search(words):
        source, said = regulation("sheathed cable in the ground", job.edition), {"wiring": wiring}
        yield _found(job, way.at("method"), shortfall(job), "sheathed-in-the-ground", source=source, typed=said)


def _numbered(job: Job, way: Way) -> Iterator[Finding]:
    number = way.circuit.number.strip()
    if found := _NO_LINE.search(number):
        yield _found(job, way.at("number"), Severity.ASK, "no-such-line", number=number, line=found[1])


def _fed(job: Job, way: Way) -> Iterator[Finding]:
    """The words name what charges vehicles, brings energy in or gives light, and the box names something else."""
    circuit = way.circuit
    feeds, description = circuit.feeds.strip(), circuit.description.strip()
    if not feeds or way.feeds_a_board:
        return
    fed = set(answers_in(feeds))
    is_vehicle = told_of_vehicles(description) and CHARGING_POINT not in fed
    is_source = bool(sources_told(description)) and not SOURCES & fed
    is_light = told_of_lights(description) and not fed & {LIGHTING, EXTRA_LOW, ALARM, SHOWER}
    if not fed & _OPEN and (is_vehicle or is_source or is_light):
        typed = {"description": description}
        yield _found(job, way.at("feeds"), Severity.ASK, "described-as-another", typed=typed, said=typed, feeds=feeds)


def _two_devices(job: Job, way: Way) -> Iterator[Finding]:
    """An RCBO is breaker and RCD in one; only on a board fed from another may it be the one of the way before."""
    device, rcd = standard_in(way.circuit.device_standard), standard_in(way.circuit.rcd_standard)
    if device is None or device == RCBO or rcd != RCBO or _is_fed_from_a_way(way):
        return
    said = {"kind": kind_of(device), "device": device}
    typed = {"device_standard": way.circuit.device_standard.strip()}
    yield _found(job, way.at("rcd_standard"), Severity.ASK, "rcbo-beside-a-device", typed=typed, said=said)


def _device_named(job: Job, way: Way) -> Iterator[Finding]:
    """A standard has a number, and the type of an RCD a letter; what has neither leaves nothing to judge by."""
    circuit = way.circuit
    standard, kind = circuit.device_standard.strip(), circuit.rcd_type.strip()
    if standard and not _A_FIGURE.search(standard) and not Reading.of(standard).is_mark:
        yield _found(job, way.at("device_standard"), Severity.ASK, "no-such-standard", standard=standard)
    if circuit.has_rcd and kind and not _RCD_TYPE.search(kind) and not Reading.of(kind).is_mark:
        yield _found(job, way.at("rcd_type"), Severity.ASK, "no-such-rcd-type", kind=kind)


def _is_fed_from_a_way(way: Way) -> bool:
    return not says_nothing(way.board.device_standard)


def _points(job: Job, way: Way) -> Iterator[Finding]:
    points, most = way.circuit.points, named_figure("plausibility", "points of a circuit up to", job.edition)
    if points.typed.strip() == "0":
        yield _found(job, way.at("points"), Severity.ASK, "no-points", points=points)
    elif points.figure is not None and points.figure > most.value:
        yield _found(job, way.at("points"), Severity.ASK, "many-points", limit=most, points=points)
