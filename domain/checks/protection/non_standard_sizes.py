"""Conductor sizes, devices, ratings and residual currents that are not made."""

from collections.abc import Iterator
from decimal import Decimal
from functools import cache

from domain.checks.shared.cables import highest_capacity
from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.decimal_slip import ONE_PLACE, did_you_mean
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.part_by_part import of_each_way
from domain.checks.shared.phrases import listed, phrase
from domain.edition import Edition
from domain.figures.limits.device import breaker_type_in, kind_of, standard_in, types_of
from domain.figures.limits.loader import table
from domain.figures.units import SquareMillimetres
from domain.forms.box_group import BoxGroup
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning, Reading
from domain.place import Place

_found = FindingFactory("sizes-made")
_NOT_READ = {Meaning.LIMITATION, Meaning.NOT_VERIFIED}
_CONDUCTORS = ("live_csa", "cpc_csa")
_ORIGIN_CONDUCTORS = (("supply", "neutral_csa"), ("earthing", "conductor_csa"), ("earthing", "bonding_csa"))
_SHEATHED, _FAR = "A", 4


def sizes_made(job: Job) -> Iterator[Finding]:
    """A size or rating nobody makes is a slip, or a device of another standard."""
    if job.profile.takes(BoxGroup.ORIGIN):
        yield from _at_the_origin(job)
    yield from _of_ways(job)


@of_each_way
def _of_ways(job: Job, way: Way) -> Iterator[Finding]:
    for box in _CONDUCTORS:
        yield from _size(job, way, box)
    yield from _pair(job, way)
    yield from _type(job, way)
    yield from _rating(job, way)
    yield from _residual(job, way)
    yield from _capacity(job, way)


def _at_the_origin(job: Job) -> Iterator[Finding]:
    """The fuse of the cut-out, and the conductors of earthing and bonding."""
    rating, standard = job.supply.device_rating, standard_in(job.supply.device_standard)
    ratings = table("device_ratings", job.edition)
    if standard in _standards(job.edition) and rating.figure is not None and not ratings.row(standard, rating.figure):
        slip = did_you_mean(rating, "A", lambda moved: ratings.row(standard, moved) is not None, ONE_PLACE)
        yield _found(
            job, Place(section="supply", box="device_rating"), Severity.ASK, "rating", source=ratings.source,
            typed={"device_standard": job.supply.device_standard.strip()}, kind=kind_of(standard), standard=standard,
            rating=rating, next=slip or phrase("is-the-rating-right"),
        )  # fmt: skip
    for section, box in _ORIGIN_CONDUCTORS:
        csa: Reading[SquareMillimetres] = getattr(getattr(job, section), box)
        if csa.figure is None or is_a_size(csa.figure, job.edition):
            continue
        slip = did_you_mean(csa, "mm²", lambda size: is_a_size(SquareMillimetres(size), job.edition), ONE_PLACE)
        if slip or not job.profile.states_a_condition:
            place, conductor = Place(section=section, box=box), phrase(f"conductor-{box}")
            yield _found(
                job, place, Severity.ASK, "size", csa=csa, conductor=conductor, next=slip or phrase("which-size")
            )


def _size(job: Job, way: Way, box: str) -> Iterator[Finding]:
    csa: Reading[SquareMillimetres] = getattr(way.circuit, box)
    if csa.figure is None or is_a_size(csa.figure, job.edition):
        return
    slip = did_you_mean(csa, "mm²", lambda size: is_a_size(SquareMillimetres(size), job.edition), ONE_PLACE)
    conductor = phrase(f"conductor-{box}")
    if job.profile.states_a_condition and not slip:
        yield _found(job, way.at(box), Severity.NOTE, "size-to-inches", csa=csa, conductor=conductor)
    else:
        next_step = slip or phrase("which-size")
        yield _found(job, way.at(box), Severity.ASK, "size", csa=csa, conductor=conductor, next=next_step)


def _pair(job: Job, way: Way) -> Iterator[Finding]:
    """A sheathed cable of a pair nobody makes, where a moved point of the line gives one that suits the device."""
    circuit, made = way.circuit, table("r1_r2", job.edition)
    line, cpc, rating = circuit.live_csa, circuit.cpc_csa.figure, circuit.rating.figure
    if circuit.wiring.strip().upper() != _SHEATHED or line.figure is None or cpc is None or line.figure < cpc * _FAR:
        return
    if rating is None or not is_a_size(line.figure, job.edition) or _is_made(line.figure, cpc, job.edition):
        return

    def suits(size: Decimal) -> bool:
        carries = highest_capacity(SquareMillimetres(size), job.edition)
        return _is_made(size, cpc, job.edition) and carries is not None and carries.value >= rating

    slip = did_you_mean(line, "mm²", suits, ONE_PLACE)
    if slip:
        yield _found(
            job, way.at("live_csa"), Severity.ASK, "pair", source=made.source, csa=line, cpc=circuit.cpc_csa, next=slip
        )


def _is_made(line: Decimal, cpc: Decimal, edition: Edition) -> bool:
    row = table("r1_r2", edition).row(line, cpc)
    return row is not None and "made_as" in row.texts


def is_a_size(csa: SquareMillimetres, edition: Edition) -> bool:
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
    letter, own = breaker_type_in(typed), {"device_standard": circuit.device_standard.strip()}
    if types and letter not in types:
        said = {"standard": standard, "types": listed(types, "list-or"), "type": typed}
        yield _found(job, way.at("device_type"), Severity.ASK, "type-of-another-standard", typed=own, said=said)
    elif kind_of(standard) == "fuse" and letter in types_of("BS EN 60898"):
        said = {"type": letter, "standard": standard}
        yield _found(job, way.at("device_type"), Severity.ASK, "breaker-type-on-a-fuse", typed=own, said=said)


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
        yield _found(
            job,
            way.at("rating"),
            Severity.ASK,
            "rating-of-another-standard" if others else "rating",
            source=ratings.source,
            typed={"device_standard": way.circuit.device_standard.strip()},
            kind=kind_of(standard),
            standard=standard,
            rating=rating,
            others=listed(others) if others else "",
            next=slip or phrase("is-the-rating-right"),
        )


@cache
def _standards(edition: Edition) -> tuple[str, ...]:
    """The standards whose ratings are listed."""
    return tuple(dict.fromkeys(row.texts["device"] for row in table("device_ratings", edition).rows))


def _residual(job: Job, way: Way) -> Iterator[Finding]:
    idn, made = way.circuit.rcd_idn, table("residual_currents", job.edition)
    if not way.circuit.has_rcd or idn.meaning is not Meaning.VALUE or idn.figure is None or made.row(idn.figure):
        return
    slip = did_you_mean(idn, "mA", lambda moved: made.row(moved) is not None)
    next_step = slip or phrase("which-is-it")
    yield _found(job, way.at("rcd_idn"), Severity.ASK, "residual-current", source=made.source, idn=idn, next=next_step)


def _capacity(job: Job, way: Way) -> Iterator[Finding]:
    """A capacity no breaker of the standard is marked with, where a moved point gives one that is."""
    capacity, standard = way.circuit.breaking_capacity, standard_in(way.circuit.device_standard)
    made = [row for row in table("breaking_capacity", job.edition).rows if row.texts["device"] == standard]
    marked = [row.figures["capacity"].value for row in made]
    if standard is None or not types_of(standard) or capacity.figure is None or capacity.figure in marked:
        return
    slip = did_you_mean(capacity, "kA", lambda moved: moved in marked, ONE_PLACE)
    if slip:
        yield _found(
            job, way.at("breaking_capacity"), Severity.ASK, "breaking-capacity", source=made[0].source,
            typed={"device_standard": way.circuit.device_standard.strip()}, kind=kind_of(standard), standard=standard,
            capacity=capacity, next=slip,
        )  # fmt: skip
