"""Quantities by their unit, so that the type checker tells an ohm from an ampere. At run time each is its Decimal."""

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from typing import Generic, NewType, TypeVar

Ohms = NewType("Ohms", Decimal)
Megohms = NewType("Megohms", Decimal)
Amperes = NewType("Amperes", Decimal)
Milliamperes = NewType("Milliamperes", Decimal)
Kiloamperes = NewType("Kiloamperes", Decimal)
Volts = NewType("Volts", Decimal)
Hertz = NewType("Hertz", Decimal)
MillivoltsPerAmpereMetre = NewType("MillivoltsPerAmpereMetre", Decimal)
Metres = NewType("Metres", Decimal)
Millimetres = NewType("Millimetres", Decimal)
SquareMillimetres = NewType("SquareMillimetres", Decimal)
Seconds = NewType("Seconds", Decimal)
Milliseconds = NewType("Milliseconds", Decimal)
Celsius = NewType("Celsius", Decimal)
Days = NewType("Days", Decimal)
Percent = NewType("Percent", Decimal)
AdiabaticFactor = NewType("AdiabaticFactor", Decimal)
"""k, in A√s/mm²."""

MilliohmsPerMetre = NewType("MilliohmsPerMetre", Decimal)

U = TypeVar("U", bound=Decimal)


@dataclass(frozen=True, slots=True)
class Unit(Generic[U]):
    """A unit a person may type behind a number: its sign, and the type of such a number."""

    sign: str
    of: Callable[[Decimal], U]


OHM = Unit("Ω", Ohms)
MEGOHM = Unit("MΩ", Megohms)
AMPERE = Unit("A", Amperes)
MILLIAMPERE = Unit("mA", Milliamperes)
VOLT = Unit("V", Volts)
MILLIVOLT_PER_AMPERE_METRE = Unit("mV/A/m", MillivoltsPerAmpereMetre)
METRE = Unit("m", Metres)
SQUARE_MILLIMETRE = Unit("mm²", SquareMillimetres)
SECOND = Unit("s", Seconds)
MILLISECOND = Unit("ms", Milliseconds)
DEGREE = Unit("°C", Celsius)
K_FACTOR = Unit("A√s/mm²", AdiabaticFactor)
MILLIOHM_PER_METRE = Unit("mΩ/m", MilliohmsPerMetre)
TIMES = Unit("", Decimal)
"""A bare number: a factor, or how many."""
