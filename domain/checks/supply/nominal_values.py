"""Nominal voltage and frequency of the supply, against those of the public one."""

from collections.abc import Iterator
from decimal import Decimal

from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.system import is_contradicted, is_over_public_voltage
from domain.figures.limits.loader import named_figure
from domain.forms.box_group import BoxGroup
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.place import Place

_found = FindingFactory("nominal-values")
_SINGLE = "1-phase 2-wire"


def nominal_values(job: Job) -> Iterator[Finding]:
    """On a single phase the voltage between lines is no other than that to earth; and the frequency is the public one."""
    if not job.profile.takes(BoxGroup.ORIGIN):
        return
    supply = job.supply
    highest = named_figure("supply_voltage", "highest, line to earth", job.edition)
    between = supply.voltage.figure
    if (
        _SINGLE in supply.live_conductors
        and between is not None
        and between > highest.value
        and not is_over_public_voltage(job)
        and all(board.phases.strip() != "3" for board in job.boards)
    ):
        place, typed = Place(section="supply", box="voltage"), {"live_conductors": supply.live_conductors.strip()}
        yield _found(
            job, place, Severity.ASK, "two-voltages-of-one-phase", source=highest.source, typed=typed,
            between=supply.voltage, live=supply.live_conductors.strip(),
        )  # fmt: skip
    u0, over = supply.voltage_to_earth.figure, is_over_public_voltage(job)
    if _SINGLE in supply.live_conductors and between is not None and u0 is not None and between < u0 and not over:
        place, typed = Place(section="supply", box="voltage"), {"live_conductors": supply.live_conductors.strip()}
        yield _found(
            job, place, Severity.ASK, "under-voltage-to-earth", limit=f"{supply.voltage_to_earth.shown} V", typed=typed,
            between=supply.voltage, u0=supply.voltage_to_earth,
        )  # fmt: skip
    if is_contradicted(job):
        place = Place(section="supply", box="voltage_to_earth")
        lowest = named_figure("supply_voltage", "lowest, line to earth", job.edition)
        u0, between = supply.voltage_to_earth, supply.voltage
        yield _found(job, place, Severity.ASK, "voltages-apart", limit=lowest, u0=u0, between=between)
    yield from _switch(job)
    yield from _frequency(job)


def _switch(job: Job) -> Iterator[Finding]:
    """A main switch is made for the voltage it parts."""
    rated, lowest = (
        job.main_switch.voltage_rating,
        named_figure("supply_voltage", "lowest, line to earth", job.edition).value,
    )
    is_three = "3-phase" in job.supply.live_conductors
    least = lowest * (Decimal(3).sqrt() if is_three else 1)
    between = job.supply.voltage.figure
    if rated.figure is None or between is None or between < least or rated.figure >= least:
        return
    place = Place(section="main_switch", box="voltage_rating")
    yield _found(
        job,
        place,
        Severity.ASK,
        "switch-under-voltage",
        limit=f"{job.supply.voltage.shown} V",
        rated=rated,
        between=job.supply.voltage,
    )


def _frequency(job: Job) -> Iterator[Finding]:
    typed, share = (
        job.supply.frequency,
        named_figure("supply_voltage", "frequency may depart by share", job.edition).value,
    )
    nominal = named_figure("supply_voltage", "nominal frequency", job.edition)
    if typed.figure is not None and abs(typed.figure - nominal.value) > nominal.value * share:
        yield _found(
            job, Place(section="supply", box="frequency"), Severity.ASK, "frequency", limit=nominal, frequency=typed
        )
