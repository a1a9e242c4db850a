"""Prospective fault current against the loop impedance read at the same place."""

from collections.abc import Iterator
from decimal import Decimal
from typing import NamedTuple

from domain.checks.shared.circuits_in_use import board_place, is_at_origin
from domain.checks.shared.decimal_slip import did_you_mean
from domain.checks.shared.expected import boards_denied, voltage_to_earth
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.own_earth import is_board_on_tt
from domain.checks.shared.phrases import phrase
from domain.checks.shared.system import is_over_public_voltage, is_tt
from domain.checks.shared.tolerances import near
from domain.figures.formulas.fault_current import fault_current
from domain.figures.formulas.rounding import half_up
from domain.figures.formulas.working import Working
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure
from domain.figures.units import Kiloamperes, Ohms, Volts
from domain.forms.box_group import BoxGroup
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Reading
from domain.place import Place

_found = FindingFactory("fault-current")
_ENQUIRY = "enquiry"
_PME = "TN-C-S"
_KILO = 1000


class Loop(NamedTuple):
    """The two readings of one place, and how far the second decides the first."""

    ipf: Reading[Kiloamperes]
    z: Reading[Ohms]
    name: str
    is_close: bool
    """Line to neutral and line to earth share their way, as at the origin of a PME supply."""
    is_three_phase: bool
    """Ipf is then the current of all three, about twice that of one."""
    seconded: Decimal | None = None
    """Ipf as it was read on the other side of the main switch."""
    z_seconded: Decimal | None = None
    """The impedance as it was read there."""
    by_electrode: bool = False
    """The impedance is that of an electrode, which has nothing to do with the current from line to neutral."""


def fault_current_fits(job: Job) -> Iterator[Finding]:
    """Ipf is the larger of two currents, one of which is U0 / Z: it cannot be much below, nor without cause far above."""
    supply = job.supply
    three = "3-phase" in supply.live_conductors
    if _ENQUIRY not in {supply.ipf_by, supply.ze_by}:
        first = next((board for board in job.boards if is_at_origin(job, board)), None)
        is_close = supply.system.strip().upper() == _PME
        seconds = (first.ipf.figure, first.zs.figure) if first else (None, None)
        loop = Loop(supply.ipf, supply.ze, "Ze", is_close, three, *seconds, by_electrode=is_tt(job))
        yield from _judged(job, Place(section="supply", box="ipf"), loop)
    for board in job.boards:
        ipf, z = (supply.ipf.figure, supply.ze.figure) if is_at_origin(job, board) else (None, None)
        if board.id in boards_denied(job):
            continue
        is_three = board.phases.strip() == "3"
        loop = Loop(
            board.ipf, board.zs, "Zdb", is_close=False, is_three_phase=is_three, seconded=ipf, z_seconded=z,
            by_electrode=is_board_on_tt(job, board),
        )  # fmt: skip
        yield from _judged(job, board_place(board, "ipf"), loop)


def _judged(job: Job, place: Place, loop: Loop) -> Iterator[Finding]:
    ipf, z = loop.ipf.figure, loop.z.figure
    if (
        not job.profile.takes(BoxGroup.ORIGIN)
        or is_over_public_voltage(job)
        or ipf is None
        or z is None
        or ipf <= 0
        or z <= 0
    ):
        return
    u0 = voltage_to_earth(job)
    low, high = _band(job, u0, z, loop)
    is_short = ipf + _half_step(ipf) < low
    if not is_short and (high is None or ipf - _half_step(ipf) <= high):
        return
    working = fault_current(u0, Ohms(z))
    in_kilo = half_up(working.value / _KILO, 2)
    expected = f"{in_kilo} kA" if in_kilo else f"{half_up(working.value, 1)} A"
    yield _found(
        job,
        place,
        Severity.ASK,
        "too-low" if is_short else "too-high",
        limit=phrase("about", figure=expected),
        source=named_figure("plausibility", "Ipf may be under U0 / Z by share", job.edition).source,
        working=working.sum,
        ipf=loop.ipf,
        name=loop.name,
        z=loop.z,
        sum=working.sum,
        next=_slip(job, working, loop, u0.value) or phrase("point-or-unit"),
    )


def _slip(job: Job, working: Working, loop: Loop, u0: Decimal) -> str:
    """Where another reading seconds Ipf alone, it is the impedance whose point may have moved."""
    ipf, z = loop.ipf.figure, loop.z.figure
    z_stands = z is not None and loop.z_seconded is not None and near(loop.z_seconded, job.edition)(z)
    if ipf is not None and not z_stands and loop.seconded is not None and near(loop.seconded, job.edition)(ipf):
        return did_you_mean(loop.z, "Ω", near(u0 / ipf / _KILO, job.edition), of=loop.name)
    usual = _usual(job, working, loop)
    return did_you_mean(loop.ipf, "kA", lambda moved: any(near(each, job.edition)(moved) for each in usual))


def _usual(job: Job, working: Working, loop: Loop) -> tuple[Decimal, ...]:
    """The currents in kA that such a loop usually goes with: of one phase, and where there are three, of all of them."""
    single = working.value / _KILO
    if not loop.is_three_phase:
        return (single,)
    times = named_figure("fault_current", "three phases, times the single-phase figure", job.edition).value
    return (single * times, single)


def _band(job: Job, u0: Limit[Volts], z: Decimal, loop: Loop) -> tuple[Decimal, Decimal | None]:
    """What Ipf (kA) may be, both ends widened by half a step of the impedance's last place.

    With an electrode in the impedance there is no upper end.
    """
    share = named_figure("plausibility", "Ipf may be under U0 / Z by share", job.edition).value
    low = u0.value / (z + _half_step(z)) / _KILO * (1 - share)
    if loop.by_electrode:
        return low, None
    system = "PME" if loop.is_close else "other"
    factor = named_figure("plausibility", f"Ipf may be over U0 / Z by factor, {system}", job.edition).value
    if loop.is_three_phase:
        factor *= named_figure("fault_current", "three phases, times the single-phase figure", job.edition).value
    least = max(z - _half_step(z), _half_step(z))
    return low, u0.value / least / _KILO * factor


def _half_step(figure: Decimal) -> Decimal:
    """Half of one in the last place typed: a reading of 0.21 may be anything from 0.205 to 0.215."""
    exponent = figure.as_tuple().exponent
    return Decimal(1).scaleb(exponent if isinstance(exponent, int) else 0) / 2
