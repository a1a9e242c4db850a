"""Conductors as the tables know them: sizes as made, resistance by material, armour."""

from decimal import Decimal
from functools import cache

from domain.edition import Edition
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import table
from domain.figures.units import MILLIOHM_PER_METRE, MilliohmsPerMetre, SquareMillimetres

MATERIALS = {"copper": "copper", "flexible copper": "copper_flexible", "aluminium": "aluminium"}


def resistance_of(material: str, csa: SquareMillimetres, edition: Edition) -> Limit[MilliohmsPerMetre] | None:
    """Resistance of a metre at 20 °C; None where the table has no such conductor."""
    return table("conductor_resistance", edition).limit_in(MILLIOHM_PER_METRE, MATERIALS[material], csa)


def ratios_of(line: SquareMillimetres, cpc: SquareMillimetres, edition: Edition) -> tuple[Decimal, ...]:
    """Resistance of a copper cpc to that of its line: by the table, where it has both sizes, and by size."""
    by_line, by_cpc = (resistance_of("copper", csa, edition) for csa in (line, cpc))
    return ((by_cpc.value / by_line.value,) if by_line and by_cpc else ()) + (line / cpc,)


def armour_of(cores: Decimal, csa: SquareMillimetres, edition: Edition) -> Limit[MilliohmsPerMetre] | None:
    """Resistance of a metre of steel wire armour round so many cores; None where the table has no such cable."""
    return table("armour_resistance", edition).limit_in(MILLIOHM_PER_METRE, "resistance", cores, csa)


@cache
def sizes_with_resistance(material: str, edition: Edition) -> tuple[SquareMillimetres, ...]:
    """The sizes whose resistance is known."""
    rows = table("conductor_resistance", edition).rows
    return tuple(SquareMillimetres(row.figures["csa"].value) for row in rows if MATERIALS[material] in row.figures)


@cache
def sizes_as_made(edition: Edition) -> tuple[SquareMillimetres, ...]:
    """Sizes of conductors as they are made, upwards."""
    return tuple(SquareMillimetres(row.figures["csa"].value) for row in table("standard_sizes", edition).rows)


def size_not_under(csa: SquareMillimetres, edition: Edition) -> SquareMillimetres | None:
    """The first size made that is no smaller; None where none is."""
    return next((size for size in sizes_as_made(edition) if size >= csa), None)
