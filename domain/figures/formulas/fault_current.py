"""Prospective fault current."""

from decimal import Decimal

from domain.figures.formulas.rounding import half_up, measurable, written
from domain.figures.formulas.working import Working
from domain.figures.limits.limit import Limit
from domain.figures.units import Amperes, Ohms, Volts
from domain.regulation import regulation

_PLACES = 2
_FINE_PLACES = 4
_RULE = "prospective fault current"


def fault_current(u0: Limit[Volts], impedance: Ohms) -> Working:
    """The current in amperes that a loop of this impedance lets flow: U0 / Z. The impedance is above nought."""
    value = half_up(u0.value / impedance, _PLACES)
    return Working(value=value, unit="A", sum=f"{u0.shown} / {impedance} Ω = {value} A", source=u0.source)


def three_phase_doubled(u0: Volts, impedance: Ohms, times: Limit) -> Working | None:
    """What is recorded for three phases: twice the current of one line and neutral, on the safe side."""
    if not measurable(u0, impedance, times.value):
        return None
    value = half_up(times.value * u0 / impedance, _PLACES)
    return Working(
        value=value,
        unit="A",
        sum=f"{times.shown} × {written(u0)} V / {written(impedance)} Ω = {written(value)} A",
        source=times.source,
    )


def three_phase_balanced(u0: Volts, impedance: Ohms) -> Working | None:
    """The other figure quoted for three phases: √3 × U0 / Z, the nominal voltage between lines over the same loop."""
    if not measurable(u0, impedance):
        return None
    value = half_up(Decimal(3).sqrt() * u0 / impedance, _PLACES)
    return Working(
        value=value,
        unit="A",
        sum=f"√3 × {written(u0)} V / {written(impedance)} Ω = {written(value)} A",
        source=regulation(_RULE),
    )


def loop_for(u0: Limit[Volts], current: Amperes, times: Limit | None = None) -> Working | None:
    """The loop in ohms through which a current in amperes flows: U0 / I, for three phases twice that."""
    doubled = times.value if times else Decimal(1)
    if not measurable(u0.value, current):
        return None
    value = half_up(doubled * u0.value / current, _FINE_PLACES)
    first = f"{times.shown} × " if times else ""
    return Working(
        value=value,
        unit="Ω",
        sum=f"{first}{u0.shown} / {written(current)} A = {written(value)} Ω",
        source=times.source if times else u0.source,
    )
