"""Insulation resistance against the minimum for the test voltage."""

from collections.abc import Iterator
from decimal import Decimal
from functools import lru_cache

from domain.checks.shared.circuits_in_use import Way, ways_in_use
from domain.checks.shared.finding_factory import FindingFactory
from domain.edition import Edition
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure, table
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning, Reading

_found = FindingFactory("insulation")
_REPEAT = ". Repeat with loads off, or find the fault"
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
        says = f"{reading.shown} MΩ is under {_minimum(way, lowest)}{_REPEAT}"
        yield _found(job, way.at(box), Severity.FAILS, says, limit=lowest)
    elif _is_under(reading, highest.value):
        says = f"{reading.shown} MΩ passes on a circuit that is {kind} only; all others need {highest.shown}"
        yield _found(job, way.at(box), Severity.ASK, says, limit=highest)
    elif reading.meaning is Meaning.OVER and reading.value < highest.value:
        says = f"{reading.shown} MΩ does not show that {highest.shown} is reached; read it on a higher range"
        yield _found(job, way.at(box), Severity.ASK, says, limit=highest)
    else:
        yield from _looked_into(job, way, box, reading)


def _looked_into(job: Job, way: Way, box: str, reading: Reading) -> Iterator[Finding]:
    practice = named_figure("insulation_practice", "look into below", job.edition)
    if reading.meaning is Meaning.UNDER:
        says = f"{reading.shown} MΩ names no value; type the reading itself"
        yield _found(job, way.at(box), Severity.ASK, says, limit=practice)
    elif reading.meaning is Meaning.VALUE and reading.value is not None and reading.value < practice.value:
        says = f"{reading.shown} MΩ passes, but below {practice.shown} the cause is looked for (common practice)"
        yield _found(job, way.at(box), Severity.ASK, says, limit=practice)


def _is_under(reading: Reading, minimum: Decimal) -> bool:
    if reading.value is None or reading.meaning is Meaning.OVER:
        return False
    return reading.value < minimum or (reading.meaning is Meaning.UNDER and reading.value == minimum)


def _minimum(way: Way, limit: Limit) -> str:
    voltage = way.circuit.test_voltage
    tested = f"tested at {voltage.shown} V" if voltage.figure is not None else "at any test voltage"
    return f"{limit.shown}, the least for a circuit {tested}"


def _unknown_voltage(job: Job, way: Way) -> Finding:
    typed = way.circuit.test_voltage.shown
    says = f"{typed} V is no test voltage of the table, so no minimum is known; is it the voltage the test was made at?"
    return _found(job, way.at("test_voltage"), Severity.ASK, says)
