"""Earth fault loop impedance: the limit of a device, and what may be read cold."""

from decimal import Decimal

from domain.figures.formulas.rounding import down, half_up, measurable, written
from domain.figures.formulas.working import Working
from domain.figures.limits.limit import Limit
from domain.figures.units import Milliamperes, Ohms, Volts
from domain.regulation import regulation

_PLACES = 2
_FINE_PLACES = 4
_LOOP_RULE = "fault loop"
_ELECTRODE_RULE = "earth electrode with an RCD"


def cold_limit(tabulated: Limit[Ohms], factor: Limit) -> Ohms:
    """What a reading taken cold may be in ohms, so that the warm conductor stays within the table; rounded down."""
    return Ohms(down(tabulated.value * factor.value, _PLACES))


def highest_cold_reading(tabulated: Limit[Ohms], factor: Limit) -> Working:
    """The same, with its sum and the figure before rounding."""
    exact, value = tabulated.value * factor.value, cold_limit(tabulated, factor)
    rounded = "" if value == exact else ", rounded down"
    return Working(
        value=value,
        unit=tabulated.unit,
        sum=f"{factor.shown} × {tabulated.shown} = {value} {tabulated.unit}{rounded}",
        source=tabulated.source,
        notes=(f"unrounded {exact.normalize():f} {tabulated.unit}", factor.source.cited),
    )


def zs(ze: Ohms, r1_r2: Ohms, factor: Decimal = Decimal(1)) -> Working:
    """Zs from the part outside and the part inside: Ze + (R1+R2) × factor."""
    value = ze + r1_r2 * factor
    warmed = "" if factor == 1 else f" × {factor}"
    return Working(value=value, unit="Ω", sum=f"{ze} Ω + {r1_r2} Ω{warmed} = {value} Ω", source=regulation(_LOOP_RULE))


def highest_ra(touch: Volts, idn: Milliamperes) -> Working | None:
    """The highest RA at which `idn`, in milliamperes, raises no more than the touch voltage; rounded down."""
    if not measurable(touch, idn):
        return None
    exact = touch * 1000 / idn
    value = down(exact, _PLACES)
    return Working(
        value=value,
        unit="Ω",
        sum=f"{written(touch)} V / {written(idn)} mA = {written(value)} Ω{'' if value == exact else ', rounded down'}",
        source=regulation(_ELECTRODE_RULE),
    )


def inside_of(whole: Ohms, ze: Ohms, factor: Decimal = Decimal(1)) -> Working:
    """R1+R2 out of Zs: (Zs - Ze) / factor. Zs is no less than Ze."""
    value = half_up((whole - ze) / factor, _FINE_PLACES)
    warmed = "" if factor == 1 else f" / {factor}"
    total = (
        f"({whole} Ω - {ze} Ω){warmed} = {written(value)} Ω" if warmed else f"{whole} Ω - {ze} Ω = {written(value)} Ω"
    )
    return Working(value=value, unit="Ω", sum=total, source=regulation(_LOOP_RULE))


def outside_of(whole: Ohms, r1_r2: Ohms, factor: Decimal = Decimal(1)) -> Working:
    """Ze out of Zs: Zs - (R1+R2) × factor. Zs is no less than that."""
    value = whole - r1_r2 * factor
    warmed = "" if factor == 1 else f" × {factor}"
    return Working(
        value=value, unit="Ω", sum=f"{whole} Ω - {r1_r2} Ω{warmed} = {written(value)} Ω", source=regulation(_LOOP_RULE)
    )


def highest_idn(touch: Volts, ra: Ohms) -> Working | None:
    """The highest residual current in milliamperes that raises no more than the touch voltage over RA; rounded down."""
    if not measurable(touch, ra):
        return None
    exact = touch * 1000 / ra
    value = down(exact, _PLACES)
    return Working(
        value=value,
        unit="mA",
        sum=f"{written(touch)} V / {written(ra)} Ω = {written(value)} mA{'' if value == exact else ', rounded down'}",
        source=regulation(_ELECTRODE_RULE),
    )
