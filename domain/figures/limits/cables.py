"""Cables as the tables of Appendix 4 know them: what they carry, what voltage they drop, and the rating factors."""

import re
from decimal import Decimal
from functools import cache

from domain.edition import Edition
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import table
from domain.figures.limits.table import LimitRow
from domain.figures.units import (
    AMPERE,
    MILLIVOLT_PER_AMPERE_METRE,
    Amperes,
    MillivoltsPerAmpereMetre,
    SquareMillimetres,
)

_70, _90, _MINERAL = "70 °C thermoplastic", "90 °C thermosetting", "70 °C mineral"
INSULATION = {
    "4D1A": _70,
    "4D2A": _70,
    "4D4A": _70,
    "4D5": _70,
    "4E1A": _90,
    "4E2A": _90,
    "4E4A": _90,
    "4G1A 500 V": _MINERAL,
    "4G1A 750 V": _MINERAL,
}
CAPACITY_TABLES = {name: f"capacity_{name.removesuffix(' V').replace(' ', '_').casefold()}" for name in INSULATION}
DROP_TABLES = (
    dict.fromkeys(("4D1B", "4D2B", "4D4B", "4D5"), "volt_drop_70")
    | dict.fromkeys(("4E1B", "4E2B", "4E4B"), "volt_drop_90")
    | {"4G1B": "volt_drop_mineral"}
)
IN_THE_GROUND = "D"
PHASES = {1: "single_phase", 3: "three_phase"}
_METHOD = re.compile(r"method_(\w+?)_(?:single|three)_phase")


def capacity(cable: str, csa: SquareMillimetres, method: str, phases: int, edition: Edition) -> Limit[Amperes] | None:
    """The tabulated current of a size laid by a method; None where the table has no such figure."""
    return table(CAPACITY_TABLES[cable], edition).limit_in(AMPERE, f"method_{method.casefold()}_{PHASES[phases]}", csa)


@cache
def methods(cable: str, phases: int, edition: Edition) -> tuple[str, ...]:
    """The methods of laying a table has columns for."""
    columns = table(CAPACITY_TABLES[cable], edition).rows[0].figures
    found = (_METHOD.fullmatch(column) for column in columns if column.endswith(PHASES[phases]))
    return tuple(match[1].upper() for match in found if match)


@cache
def capacity_sizes(cable: str, edition: Edition) -> tuple[SquareMillimetres, ...]:
    """The sizes of a table of currents."""
    return tuple(SquareMillimetres(row.figures["csa"].value) for row in table(CAPACITY_TABLES[cable], edition).rows)


@cache
def drop_rows(cable: str, edition: Edition) -> tuple[LimitRow, ...]:
    """The rows of one table of voltage drop."""
    return tuple(row for row in table(DROP_TABLES[cable], edition).rows if row.texts["cable"] == cable)


def drop_of(
    cable: str, csa: SquareMillimetres, phases: int, edition: Edition
) -> Limit[MillivoltsPerAmpereMetre] | None:
    """Millivolts for an ampere and a metre of a cable whose table does not tell methods apart."""
    return table(DROP_TABLES[cable], edition).limit_in(
        MILLIVOLT_PER_AMPERE_METRE, PHASES[phases], cable, "any method", csa
    )


def drop_sizes(cable: str, edition: Edition) -> tuple[SquareMillimetres, ...]:
    """The sizes of a table of voltage drop."""
    return tuple(sorted({SquareMillimetres(row.figures["csa"].value) for row in drop_rows(cable, edition)}))


def factor_not_kinder(name: str, group: tuple[str, ...], value: Decimal, edition: Edition) -> Limit | None:
    """The rating factor of a row, or of the next row down where the value lies between two; None beyond the table."""
    rows = table(name, edition)
    *leading, last = rows.keys
    return next(
        (
            row.figures["factor"]
            for row in rows.rows
            if tuple(row.texts[column] for column in leading) == group and row.figures[last].value >= value
        ),
        None,
    )


def last_factor(name: str, edition: Edition) -> Limit:
    """The factor of the last row, which holds from there on."""
    return table(name, edition).rows[-1].figures["factor"]
