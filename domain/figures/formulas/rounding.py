"""Rounding as tables of the trade are printed: decimal, half up; limits for a comparison, down."""

from decimal import ROUND_DOWN, ROUND_HALF_UP, Context, Decimal

_WIDE = Context(prec=1024)
_LEAST, _MOST = Decimal("0.001") ** 3, Decimal(1000) ** 3


def half_up(value: Decimal, places: int) -> Decimal:
    """To so many places, a tie away from nought: 2.185 is printed 2.19."""
    return value.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP, _WIDE)


def down(value: Decimal, places: int) -> Decimal:
    """To so many places, never above the exact figure."""
    return value.quantize(Decimal(1).scaleb(-places), ROUND_DOWN, _WIDE)


def written(value: Decimal) -> str:
    """As a sum writes it: no exponent, no trailing noughts."""
    return f"{value.normalize():f}"


def measurable(*values: Decimal) -> bool:
    """Every value is above nought, and of a size that a sum of the trade can hold."""
    return all(value.is_finite() and _LEAST <= value <= _MOST for value in values)
