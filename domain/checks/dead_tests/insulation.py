"""Insulation resistance against the minimum for the test voltage."""

from collections.abc import Iterator
from decimal import Decimal
from functools import lru_cache

from domain.checks.shared.circuits_in_use import Way, numbers_of
from domain.checks.shared.finding_factory import FindingFactory, readings_of
from domain.checks.shared.part_by_part import WaysOfBoard, board_by_board, of_each_way
from domain.checks.shared.severities import shortfall
from domain.checks.shared.uses import use_of
from domain.edition import Edition
from domain.figures.formulas.rounding import half_up
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure, table
from domain.job.box import answers_in
from domain.job.circuit import Circuit
from domain.job.circuit_use import EXTRA_LOW
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning, Reading
from domain.value import says_nothing

_found = FindingFactory("insulation")
_READINGS = ("ir_live", "ir_earth")
_EXTRA_LOW, _USUAL = "SELV or PELV", "up to 500 V, and FELV"


def insulation(job: Job) -> Iterator[Finding]:
    """Every reading at least the minimum; low ones that pass are looked into, over range is as good as it gets."""
    yield from _of_ways(job)
    yield from (finding for _, finding in _of_boards(job))


@of_each_way
def _of_ways(job: Job, way: Way) -> Iterator[Finding]:
    minima = minima_for(way.circuit.test_voltage.figure, job.edition)
    if not minima:
        yield _unknown_voltage(job, way)
        return
    minima = _for_its_kind(way, minima, job.edition)
    judged = tuple(finding for box in _READINGS for finding in _judged(job, way, box, minima))
    yield from judged or _voltage_of_another_kind(job, way)


@lru_cache(maxsize=1024)
def minima_for(voltage: Decimal | None, edition: Edition) -> tuple[tuple[str, Limit], ...]:
    """The minima a test voltage can have, lowest first, with the circuits each is for; all when none is typed."""
    rows = table("insulation", edition).rows
    fitting = [row for row in rows if voltage is None or row.figures["test_voltage"].value == voltage]
    pairs = [(row.texts["circuit"], row.figures["at_least"]) for row in fitting]
    return tuple(sorted(pairs, key=lambda pair: pair[1].value))


def _for_its_kind(way: Way, minima: tuple[tuple[str, Limit], ...], edition: Edition) -> tuple[tuple[str, Limit], ...]:
    """What its box says a circuit is leaves one minimum; words leave it open only where they may mean extra-low voltage."""
    use = use_of(way.circuit)
    if use.extra_low and not use.is_guess:
        return _extra_low(edition)
    if len(minima) == 1 or way.circuit.test_voltage.figure is None:
        return minima
    return minima if use.extra_low else minima[1:]


@lru_cache
def _extra_low(edition: Edition) -> tuple[tuple[str, Limit], ...]:
    """The minimum of a circuit said to be SELV or PELV, which a higher test voltage does not raise."""
    rows = table("insulation", edition).rows
    return tuple((_EXTRA_LOW, row.figures["at_least"]) for row in rows if row.texts["circuit"] == _EXTRA_LOW)


def _voltage_of_another_kind(job: Job, way: Way) -> Iterator[Finding]:
    """A low test voltage is for extra-low voltage, and to spare equipment that could be harmed, which is then named."""
    typed, usual = way.circuit.test_voltage, _usual_voltage(job.edition)
    if typed.figure is None or typed.figure >= usual.value or use_of(way.circuit).extra_low:
        return
    if not (says_nothing(way.board.vulnerable) and says_nothing(way.circuit.remarks)):
        return
    yield _found(job, way.at("test_voltage"), Severity.ASK, "low-voltage-unsaid", limit=usual, voltage=typed)


@lru_cache
def _usual_voltage(edition: Edition) -> Limit:
    rows = table("insulation", edition).rows
    return next(row.figures["test_voltage"] for row in rows if row.texts["circuit"] == _USUAL)


def _together(job: Job, held: WaysOfBoard) -> Iterator[Finding]:
    """The circuits of a board are in parallel where they are tested together, and then too the minimum holds."""
    ways = [way for way in held.ways if (way.circuit.ir_earth.figure or 0) > 0 and not use_of(way.circuit).extra_low]
    readings = [way.circuit.ir_earth.figure for way in ways if way.circuit.ir_earth.figure]
    if len(ways) < 2:
        return
    (_, least), *_ = minima_for(_usual_voltage(job.edition).value, job.edition)
    whole = 1 / sum((1 / each for each in readings), Decimal(0))
    if whole >= least.value or min(readings) < least.value:
        return
    lowest = min(ways, key=lambda way: way.circuit.ir_earth.figure or Decimal(0))
    shown = half_up(whole, 2)
    yield _found(
        job,
        lowest.at("ir_earth"),
        shortfall(job),
        "together-under",
        limit=least,
        measured=f"{shown} MΩ",
        typed={"readings": readings_of((way.circuit.id, way.circuit.ir_earth) for way in ways)},
        circuits=numbers_of(ways),
        board=lowest.board.name,
        together=shown,
    )


_of_boards = board_by_board(_together)


def _judged(job: Job, way: Way, box: str, minima: tuple[tuple[str, Limit], ...]) -> Iterator[Finding]:
    reading: Reading = getattr(way.circuit, box)
    if reading.value is None:
        return
    (kind, lowest), (_, highest) = minima[0], minima[-1]
    is_declared = kind == _EXTRA_LOW and len(minima) == 1
    if _is_under(reading, lowest.value):
        yield _under(job, way, box, lowest)
    elif _is_under(reading, highest.value) and _is_said_extra_low(way.circuit):
        return
    elif _is_under(reading, highest.value):
        case = "under-but-for-one-kind"
        yield _found(job, way.at(box), Severity.ASK, case, limit=highest, reading=reading, kind=kind)
    elif reading.meaning is Meaning.OVER and reading.value < highest.value:
        yield _found(job, way.at(box), Severity.ASK, "minimum-not-shown", limit=highest, reading=reading)
    elif not is_declared or reading.meaning is not Meaning.VALUE:
        yield from _looked_into(job, way, box, reading)


def _is_said_extra_low(circuit: Circuit) -> bool:
    """What it feeds is said to be SELV or PELV; the words of a description do not say so."""
    return EXTRA_LOW in answers_in(circuit.feeds)


def _looked_into(job: Job, way: Way, box: str, reading: Reading) -> Iterator[Finding]:
    practice = named_figure("insulation_practice", "look into below", job.edition)
    if reading.meaning is Meaning.UNDER:
        yield _found(job, way.at(box), Severity.ASK, "no-value", limit=practice, reading=reading)
    elif reading.meaning is Meaning.VALUE and reading.value is not None and reading.value < practice.value:
        yield _found(job, way.at(box), Severity.ASK, "low", limit=practice, reading=reading)


def _is_under(reading: Reading, minimum: Decimal) -> bool:
    if reading.value is None or reading.meaning is Meaning.OVER:
        return False
    return reading.value < minimum or (reading.meaning is Meaning.UNDER and reading.value == minimum)


def _under(job: Job, way: Way, box: str, least: Limit) -> Finding:
    reading, voltage = getattr(way.circuit, box), way.circuit.test_voltage
    if voltage.figure is None:
        return _found(job, way.at(box), Severity.FAILS, "under-every-minimum", limit=least, reading=reading)
    return _found(job, way.at(box), Severity.FAILS, "under-minimum", limit=least, reading=reading, voltage=voltage)


def _unknown_voltage(job: Job, way: Way) -> Finding:
    place, voltage = way.at("test_voltage"), way.circuit.test_voltage
    return _found(job, place, Severity.ASK, "unknown-voltage", voltage=voltage)
