"""Rounding as tables of the trade are printed: decimal, half up; limits for a comparison, down."""

from decimal import ROUND_DOWN, ROUND_HALF_UP, Decimal


def half_up(value: Decimal, places: int) -> Decimal:
    """To so many places, a tie away from nought: 2.185 is printed 2.19."""
    return value.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP)


def down(value: Decimal, places: int) -> Decimal:
    """To so many places, never above the exact figure."""
    return value.quantize(Decimal(1).scaleb(-places), ROUND_DOWN)
