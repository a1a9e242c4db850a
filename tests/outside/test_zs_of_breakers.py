"""Source: the relation Zs = U0 × Cmin / Ia of BS 7671 regulation 411.4.4 and the notes to Table 41.3."""

from decimal import ROUND_HALF_UP, Decimal

import pytest

from domain.edition import Edition
from domain.figures.limits.loader import named_figure, table
from domain.figures.limits.table import LimitRow

ROWS = table("zs_breakers", Edition.A2).rows
OLDER = table("zs_bs3871", Edition.A2).rows
TIMES = ("within_0_4_s", "within_5_s")


def described(row: LimitRow) -> str:
    return f"{row.texts['type']}{row.figures['rating'].value}"


def instant_current(row: LimitRow, time: str) -> Decimal:
    """BS EN 60898-1, Table 7: type B opens at once at 5, C at 10, D at 20 times; D within 5 s at 10 times its rating."""
    multiple = {"B": (5, 5), "C": (10, 10), "D": (20, 10)}[row.texts["type"]][TIMES.index(time)]
    return multiple * row.figures["rating"].value


@pytest.mark.parametrize("time", TIMES)
@pytest.mark.parametrize("row", ROWS, ids=described)
def test_every_tabulated_breaker_zs_follows_from_the_least_voltage_and_the_current_that_opens_it(
    row: LimitRow, time: str
) -> None:
    exact = Decimal(230) * Decimal("0.95") / instant_current(row, time)
    assert row.figures[time].value == exact.quantize(Decimal("0.01"), ROUND_HALF_UP)


# Source: the multiples of BS 3871 types 1 to 4 in editions of the On-Site Guide, from memory: 4, 7, 10 and 50 times.
@pytest.mark.parametrize("row", OLDER, ids=described)
def test_every_older_breaker_zs_follows_from_the_multiple_of_its_type(row: LimitRow) -> None:
    multiple = {"1": 4, "2": 7, "3": 10, "4": 50}[row.texts["type"]]
    exact = Decimal("218.5") / (multiple * row.figures["rating"].value)
    rounded = exact.quantize(Decimal("0.01"), ROUND_HALF_UP)
    assert row.figures["within_0_4_s"].value == row.figures["within_5_s"].value == rounded


@pytest.mark.parametrize("time", TIMES)
@pytest.mark.parametrize("row", [*ROWS, *OLDER], ids=described)
def test_the_voltage_over_the_current_of_the_device_gives_the_table(row: LimitRow, time: str) -> None:
    u0, cmin = (named_figure("loop", name, Edition.A2) for name in ("U0", "Cmin"))
    multiple = table("breaker_multiples", Edition.A2).limit(time, row.texts["type"])
    assert multiple
    highest = u0.value * cmin.value / (multiple.value * row.figures["rating"].value)
    assert highest.quantize(Decimal("0.01"), ROUND_HALF_UP) == row.figures[time].value


def test_the_table_holds_the_ratings_of_the_standard() -> None:
    ratings = {
        letter: [str(row.figures["rating"].value) for row in ROWS if row.texts["type"] == letter] for letter in "BCD"
    }
    usual = ["6", "10", "16", "20", "25", "32", "40", "45", "50", "63", "80", "100", "125"]
    assert ratings == {"B": ["3", *usual], "C": usual, "D": usual}
