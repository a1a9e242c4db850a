"""What a cable carries where it is laid: its tabulated current times the rating factors."""

from collections.abc import Mapping
from decimal import Decimal

from domain.figures.formulas.rounding import half_up, measurable, written
from domain.figures.formulas.working import Working
from domain.figures.limits.limit import Limit
from domain.figures.units import Amperes

_PLACES = 2


def cable_rating(tabulated: Limit[Amperes], factors: Mapping[str, Decimal]) -> Working | None:
    """Iz in amperes: It × Ca × Cg × …, each factor by its name."""
    if not measurable(tabulated.value, *factors.values()):
        return None
    value = half_up(exact_rating(tabulated.value, factors), _PLACES)
    if not factors:
        return Working(value=tabulated.value, unit="A", sum=f"It = {tabulated.shown}", source=tabulated.source)
    names = "".join(f" × {name}" for name in factors)
    numbers = "".join(f" × {written(factor)}" for factor in factors.values())
    return Working(
        value=value,
        unit="A",
        sum=f"It{names} = {tabulated.shown}{numbers} = {written(value)} A",
        source=tabulated.source,
    )


def exact_rating(tabulated: Amperes, factors: Mapping[str, Decimal]) -> Amperes:
    """Iz before rounding, for comparing with In."""
    rating: Decimal = tabulated
    for factor in factors.values():
        rating *= factor
    return Amperes(rating)
