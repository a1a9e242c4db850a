"""Prospective fault current against the loop impedance read at the same place."""

from collections.abc import Iterator
from decimal import Decimal

from domain.checks.tabulated import is_tt
from domain.checks.ways import board_place
from domain.finding import Finding, Severity
from domain.formulas.fault_current import fault_current
from domain.formulas.rounding import half_up
from domain.job import Job
from domain.limits.limit import Limit
from domain.limits.loader import named_figure
from domain.place import Place
from domain.reading import Meaning, Reading

_CHECK = "fault-current"
_ENQUIRY = "enquiry"
_PME = "TN-C-S"
_KILO = 1000


def fault_current_fits(job: Job) -> Iterator[Finding]:
    """Ipf is the larger of two currents, one of which is U0 / Z: it cannot be much below, nor without cause far above."""
    supply = job.supply
    if _ENQUIRY not in {supply.ipf_by, supply.ze_by}:
        close = supply.system.strip().upper() == _PME and "1-phase" in supply.live_conductors
        yield from _judged(job, Place(section="supply", box="ipf"), supply.ipf, supply.ze, "Ze", is_close=close)
    for board in job.boards:
        yield from _judged(job, board_place(board, "ipf"), board.ipf, board.zs, "Zdb", is_close=False)


def _judged(job: Job, place: Place, ipf: Reading, z: Reading, name: str, *, is_close: bool) -> Iterator[Finding]:
    if not job.form_set.has_schedules or ipf.figure is None or z.figure is None or ipf.figure <= 0 or z.figure <= 0:
        return
    u0 = _u0(job)
    working = fault_current(u0, z.figure)
    expected = f"about {half_up(working.value / _KILO, 2)} kA"
    low, high = _band(job, u0, z, is_close=is_close)
    # On TT the electrode has nothing to do with the current from line to neutral, so only the lower end holds.
    is_short = ipf.figure + _half_step(ipf) < low
    if not is_short and (is_tt(job) or ipf.figure - _half_step(ipf) <= high):
        return
    why = (
        f"it is the larger of the two currents, so at least {expected} is expected"
        if is_short
        else f"{expected} is expected"
    )
    says = f"Ipf {ipf.shown} kA and {name} {z.shown} Ω do not fit: {why} ({working.sum}). Slip of the decimal point, or of the unit?"
    yield Finding(
        check=_CHECK,
        place=place,
        severity=Severity.ASK,
        measured=f"{ipf.shown} kA",
        limit=expected,
        source=named_figure("plausibility", "Ipf may be under U0 / Z by share", job.edition).source,
        says=says,
    )


def _u0(job: Job) -> Limit:
    nominal = named_figure("loop", "U0", job.edition)
    typed = job.supply.voltage_to_earth
    if typed.meaning is Meaning.VALUE and typed.figure is not None and typed.figure > 0:
        return nominal.model_copy(update={"value": typed.figure})
    return nominal


def _band(job: Job, u0: Limit, z: Reading, *, is_close: bool) -> tuple[Decimal, Decimal]:
    """What Ipf (kA) may be, with both ends widened by half a step of the impedance's last place."""
    assert z.figure is not None
    share = named_figure("plausibility", "Ipf may be under U0 / Z by share", job.edition).value
    close = "Ipf may be over U0 / Z by factor, PME"
    factor = named_figure("plausibility", close if is_close else "Ipf may be over U0 / Z by factor, other", job.edition)
    least = max(z.figure - _half_step(z), _half_step(z) or z.figure)
    most = z.figure + _half_step(z)
    return u0.value / most / _KILO * (1 - share), u0.value / least / _KILO * factor.value


def _half_step(reading: Reading) -> Decimal:
    """Half of one in the last place typed: a reading of 0.21 may be anything from 0.205 to 0.215."""
    assert reading.figure is not None
    exponent = reading.figure.as_tuple().exponent
    return Decimal(1).scaleb(exponent if isinstance(exponent, int) else 0) / 2
