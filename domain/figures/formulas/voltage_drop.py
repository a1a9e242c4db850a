"""Voltage drop along a cable, and the share of the nominal voltage it takes."""

from decimal import Decimal

from domain.figures.formulas.rounding import half_up, measurable, written
from domain.figures.formulas.working import Working
from domain.figures.limits.limit import Limit
from domain.regulation import regulation

_PLACES = 2
_RULE = "voltage drop"


def voltage_drop(by_ampere_and_metre: Decimal, current: Decimal, length: Decimal) -> Working | None:
    """The drop in volts, from millivolts for an ampere and a metre."""
    if not measurable(by_ampere_and_metre, current, length):
        return None
    value = half_up(exact_drop(by_ampere_and_metre, current, length), _PLACES)
    factors = f"{written(by_ampere_and_metre)} mV/A/m × {written(current)} A × {written(length)} m"
    return Working(value=value, unit="V", sum=f"{factors} / 1000 = {written(value)} V", source=regulation(_RULE))


def exact_drop(by_ampere_and_metre: Decimal, current: Decimal, length: Decimal) -> Decimal:
    """The drop in volts before rounding, for comparing with a limit."""
    return by_ampere_and_metre * current * length / 1000


def highest_drop(
    nominal: Limit, share: Limit, length: Decimal, beyond: Limit, by_the_metre: Limit, most: Limit
) -> Decimal:
    """What the drop may be in volts: a share of the nominal voltage, and a little more on a long run."""
    added = min(most.value, max(Decimal(0), length - beyond.value) * by_the_metre.value)
    return nominal.value * (share.value + added).scaleb(-2)
