"""What circuits take together, by their devices and the diversity typed for them."""

from collections.abc import Sequence
from decimal import Decimal

from domain.checks.shared.circuits_in_use import Way
from domain.figures.units import Amperes

_NONE = Decimal(1)
_PER_CENT = -2


def _share(way: Way) -> Decimal:
    typed = way.circuit.diversity.figure
    return typed.scaleb(_PER_CENT) if typed else _NONE


def demand_of(ways: Sequence[Way]) -> Amperes:
    """The ratings of the devices together, each by its diversity where one is typed, in amperes."""
    shares = ((way.circuit.rating.figure or Decimal(0)) * _share(way) for way in ways)
    return Amperes(sum(shares, Decimal(0)))
