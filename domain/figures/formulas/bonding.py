"""Main protective bonding where the supply is not PME."""

from domain.figures.formulas.rounding import measurable, written
from domain.figures.formulas.working import Working
from domain.figures.limits.limit import Limit
from domain.figures.units import SquareMillimetres


def half_the_earthing_conductor(
    earthing: SquareMillimetres, share: Limit, least: Limit, enough: Limit
) -> Working | None:
    """Half the size the earthing conductor needs, between the least allowed and the most asked for."""
    if not measurable(earthing):
        return None
    half = earthing * share.value
    value = min(max(half, least.value), enough.value)
    bounds = {least.value: ", but at least ", enough.value: ", but never asked over "}
    bounded = "" if value == half else f"{bounds[value]}{written(value)} mm²"
    return Working(
        value=value,
        unit="mm²",
        sum=f"half of {written(earthing)} mm² = {written(half)} mm²{bounded}",
        source=least.source,
    )
