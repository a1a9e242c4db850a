"""Conductor sizes, devices, ratings and residual currents that are not made."""

from collections.abc import Iterator
from decimal import Decimal
from functools import cache

from domain.checks.shared.circuits_in_use import Way, ways_in_use
from domain.checks.shared.decimal_slip import ONE_PLACE, did_you_mean
from domain.checks.shared.finding_factory import FindingFactory
from domain.edition import Edition
from domain.figures.limits.device import breaker_type_in, kind_of, standard_in, types_of
from domain.figures.limits.loader import table
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning, Reading

_found = FindingFactory("sizes-made")
_NOT_READ = {Meaning.LIMITATION, Meaning.NOT_VERIFIED}
_CONDUCTORS = {"live_csa": "live conductor", "cpc_csa": "cpc"}


def sizes_made(job: Job) -> Iterator[Finding]:
    """A size or rating nobody makes is a slip, or a device of another standard."""
    for way in ways_in_use(job):
        for box, conductor in _CONDUCTORS.items():
            yield from _size(job, way, box, conductor)
        yield from _type(job, way)
        yield from _rating(job, way)
        yield from _residual(job, way)


def _size(job: Job, way: Way, box: str, conductor: str) -> Iterator[Finding]:
    csa: Reading = getattr(way.circuit, box)
    if csa.figure is None or is_a_size(csa.figure, job.edition):
        return
    slip = did_you_mean(csa, "mm²", lambda size: is_a_size(size, job.edition), ONE_PLACE)
    says = f"No {conductor} of {csa.shown} mm² is made. {slip or 'Which size is it?'}"
    if job.profile.states_a_condition and not slip:
        says += " A cable to inches has no size in this list; name the nearest and say so in the remarks"
    severity = Severity.NOTE if job.profile.states_a_condition and not slip else Severity.ASK
    source = table("standard_sizes", job.edition).source
    yield _found(job, way.at(box), severity, says, source=source)


def is_a_size(csa: Decimal, edition: Edition) -> bool:
    """Conductors of this size are made, flexible ones included."""
    return table("standard_sizes", edition).row(csa) is not None or (
        table("conductor_resistance", edition).row(csa) is not None
    )


def _type(job: Job, way: Way) -> Iterator[Finding]:
    circuit = way.circuit
    typed, standard = circuit.device_type.strip(), standard_in(circuit.device_standard)
    if not typed or standard is None or Reading.of(typed).meaning in _NOT_READ:
        return
    types = types_of(standard)
    letter = breaker_type_in(typed)
    if types and letter not in types:
        *most, last = types
        says = f"A device to {standard} is of type {', '.join(most)} or {last}, not {typed}. Is the standard right?"
        yield _found(job, way.at("device_type"), Severity.ASK, says)
    elif kind_of(standard) == "fuse" and letter in types_of("BS EN 60898"):
        says = f"Type {letter} belongs to a circuit-breaker, but {standard} is a fuse. Which is it?"
        yield _found(job, way.at("device_type"), Severity.ASK, says)


def _rating(job: Job, way: Way) -> Iterator[Finding]:
    rating, standard = way.circuit.rating, standard_in(way.circuit.device_standard)
    ratings = table("device_ratings", job.edition)
    if standard is None or rating.figure is None or ratings.row(standard, rating.figure):
        return
    if standard in _standards(job.edition):
        others = [other for other in _standards(job.edition) if ratings.row(other, rating.figure)]
        slip = did_you_mean(
            rating, "A", lambda moved: not others and ratings.row(standard, moved) is not None, ONE_PLACE
        )
        elsewhere = f"; {rating.shown} A is a rating of {' and '.join(others)}" if others else ""
        says = f"No {kind_of(standard)} to {standard} is made for {rating.shown} A{elsewhere}. {slip or 'Is the rating right?'}"
        yield _found(job, way.at("rating"), Severity.ASK, says, source=ratings.source)


@cache
def _standards(edition: Edition) -> tuple[str, ...]:
    """The standards whose ratings are listed."""
    return tuple(dict.fromkeys(row.texts["device"] for row in table("device_ratings", edition).rows))


def _residual(job: Job, way: Way) -> Iterator[Finding]:
    idn, made = way.circuit.rcd_idn, table("residual_currents", job.edition)
    if not way.circuit.has_rcd or idn.meaning is not Meaning.VALUE or idn.figure is None or made.row(idn.figure):
        return
    slip = did_you_mean(idn, "mA", lambda moved: made.row(moved) is not None)
    says = f"No RCD has a rated residual current of {idn.shown} mA. {slip or 'Which is it?'}"
    yield _found(job, way.at("rcd_idn"), Severity.ASK, says, source=made.source)
