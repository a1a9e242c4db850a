"""Voltage drop over the known length, with the circuit loaded to the rating of its device."""

from collections.abc import Iterator
from decimal import Decimal
from functools import lru_cache

from domain.checks.shared.cables import has_three_phases, millivolts
from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.expected import DropBefore, drop_before, expected_drop, load_of, nominal_of, run_of
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.part_by_part import of_each_way
from domain.checks.shared.phrases import phrase
from domain.checks.shared.severities import shortfall
from domain.checks.shared.uses import use_of
from domain.edition import Edition
from domain.figures.formulas.rounding import half_up, measurable, written
from domain.figures.formulas.voltage_drop import exact_drop, highest_drop
from domain.figures.limits.loader import named_figure, table
from domain.figures.units import Metres, Volts
from domain.job.finding import Finding, Severity
from domain.job.job import Job

_found = FindingFactory("volt-drop")
_PLACES = 1


@of_each_way
def volt_drop(job: Job, way: Way) -> Iterator[Finding]:
    """A note where the drop with the full rating at the far end passes the share the standard allows."""
    figure, length = millivolts(way, job.edition), way.circuit.length.figure
    load, run = load_of(way, job.edition), run_of(way, job.edition)
    if figure is None or load is None or length is None or run is None or not measurable(load, length):
        return
    use, three = use_of(way.circuit), has_three_phases(way)
    highest = highest_for(length, job.edition, is_lighting=use.lights, three_phases=three)
    own = exact_drop(figure.value, load, run)
    if own > highest:
        yield from _over(job, way, load, highest)
    elif (before := drop_before(job, way.board)) is not None:
        yield from _over_from_the_origin(job, way, own, before)


@lru_cache(maxsize=1024)
def highest_for(length: Metres, edition: Edition, *, is_lighting: bool, three_phases: bool) -> Volts:
    """What the drop may be in volts, for lighting or anything else, on the public supply."""
    share = table("voltage_drop_limits", edition).limit("lighting" if is_lighting else "other", "public")
    assert share, "the limits of voltage drop have a row for the public supply"
    nominal = named_figure(
        "supply_voltage", "nominal, line to line" if three_phases else "nominal, line to earth", edition
    )
    beyond, by_the_metre, most = (
        named_figure("voltage_drop_long_runs", name, edition)
        for name in ("beyond", "added by the metre", "added at most")
    )
    return highest_drop(nominal, share, length, beyond, by_the_metre, most)


def _over_from_the_origin(job: Job, way: Way, own: Decimal, before: DropBefore) -> Iterator[Finding]:
    """The limit holds from the origin to the load, so the ways that feed the board count as well."""
    nominal, length = nominal_of(way, job.edition).value, way.circuit.length.figure or Decimal(0)
    use, three = use_of(way.circuit), has_three_phases(way)
    most = highest_for(length + before.length, job.edition, is_lighting=use.lights, three_phases=three)
    earlier = before.share * nominal
    if own + earlier <= most:
        return
    total, first, last = (half_up(each, _PLACES) for each in (own + earlier, earlier, own))
    yield _found(
        job,
        way.at("length"),
        _severity(job, way),
        "over-from-the-origin",
        limit=f"{written(half_up(most, _PLACES))} V",
        source=table("voltage_drop_limits", job.edition).source,
        measured=f"{total} V",
        typed={"design_current": way.circuit.design_current.typed},
        total=total,
        earlier=first,
        own=last,
        board=way.board.name,
        length=way.circuit.length,
        use=phrase("for-lighting" if use.lights else "for-other-uses"),
    )


def _severity(job: Job, way: Way) -> Severity:
    """The rating of a device says what may flow at most, Ib what does: only that is held against the work."""
    return shortfall(job) if way.circuit.design_current.figure else Severity.NOTE


def _where(way: Way) -> str:
    if way.circuit.is_ring:
        return phrase("at-the-middle")
    return phrase("along-the-run" if use_of(way.circuit).lights else "at-the-far-end")


def _over(job: Job, way: Way, load: Decimal, highest: Decimal) -> Iterator[Finding]:
    working = expected_drop(way, job.edition)
    if working is None:
        return
    yield _found(
        job,
        way.at("length"),
        _severity(job, way),
        "over",
        limit=f"{written(half_up(highest, _PLACES))} V",
        source=table("voltage_drop_limits", job.edition).source,
        working=working.sum,
        measured=working.shown,
        load=written(load),
        where=_where(way),
        length=way.circuit.length,
        sum=working.sum,
        use=phrase("for-lighting" if use_of(way.circuit).lights else "for-other-uses"),
    )
