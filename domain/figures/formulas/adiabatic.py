"""The adiabatic equation: how thick a conductor must be to carry a fault until the device opens."""

from collections.abc import Sequence
from decimal import Decimal

from domain.figures.formulas.rounding import half_up, measurable, written
from domain.figures.formulas.working import Working
from domain.regulation import regulation

_PLACES = 2
_RULE = "adiabatic equation"


def least_csa(current: Decimal, time: Decimal, k: Decimal) -> Working | None:
    """The least size in mm² for a current in amperes over a time in seconds: √(I² × t) / k."""
    if not measurable(current, time, k):
        return None
    amperes = written(half_up(current, _PLACES))
    value = half_up((current * current * time).sqrt() / k, _PLACES)
    return Working(
        value=value,
        unit="mm²",
        sum=f"√({amperes}² × {written(time)}) / {written(k)} = {written(value)} mm²",
        source=regulation(_RULE),
    )


def carries(csa: Decimal, current: Decimal, time: Decimal, k: Decimal) -> bool:
    """A conductor of this size carries the fault: I² × t ≤ k² × S², compared exactly."""
    return measurable(csa, current, time, k) and current * current * time <= (k * csa) ** 2


def next_size(sizes: Sequence[Decimal], current: Decimal, time: Decimal, k: Decimal) -> Decimal | None:
    """The first size made, counted upwards, that carries the fault; None where none does."""
    return next((size for size in sizes if carries(size, current, time, k)), None)
