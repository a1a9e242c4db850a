"""Prospective fault current."""

from decimal import Decimal

from domain.formulas.rounding import half_up
from domain.formulas.working import Working
from domain.limits.limit import Limit

_PLACES = 2


def fault_current(u0: Limit, impedance: Decimal) -> Working:
    """The current in amperes that a loop of this impedance lets flow: U0 / Z. The impedance is above nought."""
    value = half_up(u0.value / impedance, _PLACES)
    return Working(value=value, unit="A", sum=f"{u0.shown} / {impedance} Ω = {value} A", source=u0.source)
