"""Insulation resistance of circuits tested together."""

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from domain.figures.formulas.rounding import half_up
from domain.figures.formulas.working import Working
from domain.figures.units import Megohms
from domain.regulation import regulation

_PLACES = 3
_RULE = "insulation in parallel"


def parallel(readings: Sequence[Megohms]) -> Working:
    """What circuits read together: 1/R is the sum of 1/Ri. At least one reading, all above nought.

    Summed as fractions, so that a tie stays a tie when it is rounded.
    """
    together = 1 / sum((1 / Fraction(each) for each in readings), Fraction(0))
    value = half_up(Decimal(together.numerator) / Decimal(together.denominator), _PLACES)
    return Working(
        value=value,
        unit="MΩ",
        sum=f"1 / ({' + '.join(f'1/{each}' for each in readings)}) = {value} MΩ",
        source=regulation(_RULE),
    )


def left_of(together: Megohms, readings: Sequence[Megohms]) -> Working | None:
    """What the one circuit not among the readings has, by what all of them give together; None where they give no less than so."""
    rest = 1 / Fraction(together) - sum((1 / Fraction(each) for each in readings), Fraction(0))
    if rest <= 0:
        return None
    value = half_up(Decimal(rest.denominator) / Decimal(rest.numerator), _PLACES)
    return Working(
        value=value,
        unit="MΩ",
        sum=f"1 / (1/{together} - {' - '.join(f'1/{each}' for each in readings)}) = {value} MΩ",
        source=regulation(_RULE),
    )
