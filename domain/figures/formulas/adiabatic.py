"""The adiabatic equation: how thick a conductor must be to carry a fault until the device opens."""

from collections.abc import Sequence

from domain.figures.formulas.rounding import down, half_up, measurable, written
from domain.figures.formulas.working import Working
from domain.figures.units import AdiabaticFactor, Amperes, Seconds, SquareMillimetres
from domain.regulation import regulation

_PLACES = 2
_FINE_PLACES = 4
_RULE = "adiabatic equation"


def least_csa(current: Amperes, time: Seconds, k: AdiabaticFactor) -> Working | None:
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


def carries(csa: SquareMillimetres, current: Amperes, time: Seconds, k: AdiabaticFactor) -> bool:
    """A conductor of this size carries the fault: I² × t ≤ k² × S², compared exactly."""
    return measurable(csa, current, time, k) and current * current * time <= (k * csa) ** 2


def longest_time(csa: SquareMillimetres, current: Amperes, k: AdiabaticFactor) -> Working | None:
    """How long in seconds a conductor of this size carries a current: k² × S² / I², rounded down."""
    if not measurable(csa, current, k):
        return None
    amperes = written(half_up(current, _PLACES))
    value = down((k * csa / current) ** 2, _FINE_PLACES)
    return Working(
        value=value,
        unit="s",
        sum=f"{written(k)}² × {written(csa)}² / {amperes}² = {written(value)} s",
        source=regulation(_RULE),
    )


def highest_current(csa: SquareMillimetres, time: Seconds, k: AdiabaticFactor) -> Working | None:
    """The current in amperes that a conductor of this size carries so long: k × S / √t, rounded down."""
    if not measurable(csa, time, k):
        return None
    value = down(k * csa / time.sqrt(), _PLACES)
    return Working(
        value=value,
        unit="A",
        sum=f"{written(k)} × {written(csa)} / √{written(time)} = {written(value)} A",
        source=regulation(_RULE),
    )


def next_size(
    sizes: Sequence[SquareMillimetres], current: Amperes, time: Seconds, k: AdiabaticFactor
) -> SquareMillimetres | None:
    """The first size made, counted upwards, that carries the fault; None where none does."""
    return next((size for size in sizes if carries(size, current, time, k)), None)
