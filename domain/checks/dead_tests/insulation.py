"""Insulation resistance against the minimum for the test voltage."""

from collections.abc import Iterator
from decimal import Decimal
from functools import lru_cache

from domain.checks.shared.circuits_in_use import Way, ways_in_use
from domain.checks.shared.finding_factory import FindingFactory
from domain.edition import Edition
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure, table
from domain.job.box import answers_in
from domain.job.circuit import Circuit
from domain.job.circuit_use import EXTRA_LOW
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning, Reading

_found = FindingFactory("insulation")
_READINGS = ("ir_live", "ir_earth")


def insulation(job: Job) -> Iterator[Finding]:
    """Every reading at least the minimum; low ones that pass are looked into, over range is as good as it gets."""
    for way in ways_in_use(job):
        minima = minima_for(way.circuit.test_voltage.figure, job.edition)
        if not minima:
            yield _unknown_voltage(job, way)
        else:
            for box in _READINGS:
                yield from _judged(job, way, box, minima)


@lru_cache(maxsize=1024)
def minima_for(voltage: Decimal | None, edition: Edition) -> tuple[tuple[str, Limit], ...]:
    """The minima a test voltage can have, lowest first, with the circuits each is for; all when none is typed."""
    rows = table("insulation", edition).rows
    fitting = [row for row in rows if voltage is None or row.figures["test_voltage"].value == voltage]
    pairs = [(row.texts["circuit"], row.figures["at_least"]) for row in fitting]
    return tuple(sorted(pairs, key=lambda pair: pair[1].value))


def _judged(job: Job, way: Way, box: str, minima: tuple[tuple[str, Limit], ...]) -> Iterator[Finding]:
    reading: Reading = getattr(way.circuit, box)
    if reading.value is None:
        return
    (kind, lowest), (_, highest) = minima[0], minima[-1]
    if _is_under(reading, lowest.value):
        yield _under(job, way, box, lowest)
    elif _is_under(reading, highest.value) and _is_said_extra_low(way.circuit):
        return
    elif _is_under(reading, highest.value):
        case = "under-but-for-one-kind"
        yield _found(job, way.at(box), Severity.ASK, case, limit=highest, reading=reading, kind=kind)
    elif reading.meaning is Meaning.OVER and reading.value < highest.value:
        yield _found(job, way.at(box), Severity.ASK, "minimum-not-shown", limit=highest, reading=reading)
    else:
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
