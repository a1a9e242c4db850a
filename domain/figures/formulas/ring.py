"""Ring final circuits: what the cross-connected legs should read."""

from collections.abc import Sequence
from decimal import Decimal

from domain.figures.formulas.rounding import half_up
from domain.figures.formulas.working import Working
from domain.figures.limits.limit import Limit
from domain.figures.units import Ohms
from domain.regulation import regulation

_PLACES = 3
_PLACES_OF_A_MARGIN = 2
_RULE = "cross-connected ring"


def quarter(one: Ohms, other: Ohms, names: str = "r1 + r2") -> Working:
    """A quarter of two end-to-end readings: the highest a cross-connected ring gives, to be recorded as R1+R2."""
    value = (one + other) / 4
    return Working(
        value=value, unit="Ω", sum=f"({names}) / 4 = ({one} + {other}) / 4 = {value:f} Ω", source=regulation(_RULE)
    )


def lowest_crossed(r1: Ohms, r2: Ohms) -> Working:
    """The lowest a cross-connected reading gets, at the board's own end: r1 × r2 / (r1 + r2)."""
    value = half_up(r1 * r2 / (r1 + r2), _PLACES)
    return Working(
        value=value, unit="Ω", sum=f"r1 × r2 / (r1 + r2) = {r1} × {r2} / ({r1} + {r2}) = {value} Ω, at the board"
    )


def crossed_at(r1: Ohms, r2: Ohms, share: Decimal) -> Ohms:
    """The cross-connected reading at a share of the way round, exact."""
    return Ohms((share * r1 + (1 - share) * r2) * (share * r2 + (1 - share) * r1) / (r1 + r2))


def share_at(r1: Ohms, r2: Ohms, reading: Ohms) -> Decimal | None:
    """The nearer share of the way round at which a ring reads so; None where it reads so nowhere.

    The formula of `crossed_at` turned: with x the share, x × (1 - x) = (reading × (r1 + r2) - r1 × r2) / (r1 - r2)².
    `r1` and `r2` must differ, since a ring of two equal legs reads alike all round.
    """
    product = (reading * (r1 + r2) - r1 * r2) / (r1 - r2) ** 2
    if not 0 <= 4 * product <= 1:
        return None
    return (1 - (1 - 4 * product).sqrt()) / 2


def margin(expected: Ohms, flat: Limit, share: Limit) -> Ohms:
    """How far a reading may be from the one expected: a flat part in ohms, or a share of it where that is more.

    Rounded half up to the places of the flat part, as a sentence prints it, so that sentence and verdict agree.
    """
    return Ohms(max(flat.value, half_up(expected * share.value, _PLACES_OF_A_MARGIN)))


def fitting_r2(r1: Ohms, ratios: Sequence[Decimal], flat: Limit, share: Limit) -> tuple[Ohms, Ohms]:
    """The lowest and the highest r2 that fit r1, of a cpc whose resistance is one of these ratios to the line's."""
    expected = [Ohms(expected_r2(r1, ratio).value) for ratio in ratios]
    give_or_take = margin(max(expected), flat, share)
    return Ohms(min(expected) - give_or_take), Ohms(max(expected) + give_or_take)


def expected_r2(r1: Ohms, ratio: Decimal) -> Working:
    """The cpc's end-to-end reading, from the line's and the ratio of their resistances."""
    value = half_up(r1 * ratio, _PLACES)
    return Working(value=value, unit="Ω", sum=f"r1 × {half_up(ratio, _PLACES)} = {value} Ω")
