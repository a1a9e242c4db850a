"""Prospective fault current."""

from decimal import Decimal

from domain.formulas.rounding import half_up
from domain.formulas.working import Working
from domain.limits.limit import Limit


def fault_current(u0: Limit, impedance: Decimal) -> Working:
    """The current a loop of this impedance lets flow, in kiloamperes: U0 / Z. The impedance is above nought."""
    value = half_up(u0.value / impedance / 1000, 2)
    return Working(value=value, unit="kA", sum=f"{u0.shown} / {impedance} Ω = {value} kA", source=u0.source)
