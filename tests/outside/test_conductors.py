"""Source: IEC 60228, resistivity of annealed copper and aluminium, and Appendix 4 of Locke's Guide (Wiley, 2008)."""

from decimal import Decimal

import pytest

from domain.edition import Edition
from domain.figures.formulas.conductor import r1_r2, resistance
from domain.figures.limits.loader import table

CONDUCTORS = table("conductor_resistance", Edition.A2).rows


# Source: IEC 60228:2004, Table 2, plain copper, as printed in makers' open catalogues.
PRINTED = {
    "0.5": "36.0",
    "0.75": "24.5",
    "1": "18.1",
    "1.5": "12.1",
    "2.5": "7.41",
    "4": "4.61",
    "6": "3.08",
    "10": "1.83",
    "16": "1.15",
    "25": "0.727",
    "35": "0.524",
    "50": "0.387",
    "70": "0.268",
    "95": "0.193",
    "120": "0.153",
    "150": "0.124",
    "185": "0.0991",
    "240": "0.0754",
}


@pytest.mark.parametrize(
    ("csa", "printed"),
    PRINTED.items(),
)
def test_copper_has_the_resistance_of_the_international_table(csa: str, printed: str) -> None:
    limit = table("conductor_resistance", Edition.A2).limit("copper", Decimal(csa))
    assert limit
    assert limit.value == Decimal(printed)


# Source: IEC 60028, annealed copper 17.241 mΩ·mm²/m at 20 °C; IEC 60889, aluminium 28.264. A stranded core of a
# nominal size has a little less metal than its name says, so its highest resistance lies some per cent above.
@pytest.mark.parametrize(
    ("metal", "resistivity"), [("copper", "17.241"), ("copper_flexible", "17.241"), ("aluminium", "28.264")]
)
def test_each_resistance_is_that_of_the_metal_and_a_little_more(metal: str, resistivity: str) -> None:
    ratios = {
        row.figures["csa"].value: row.figures[metal].value * row.figures["csa"].value / Decimal(resistivity)
        for row in CONDUCTORS
        if metal in row.figures
    }
    assert len(ratios) > 9
    assert all(Decimal("1.0") < ratio < Decimal("1.17") for ratio in ratios.values()), ratios


def test_thicker_conductors_have_less_resistance_and_aluminium_more_than_copper() -> None:
    copper = [row.figures["copper"].value for row in CONDUCTORS]
    assert copper == sorted(copper, reverse=True)
    assert all(
        row.figures["aluminium"].value > row.figures["copper"].value for row in CONDUCTORS if "aluminium" in row.figures
    )


# Source: the On-Site Guide's own rule that R1+R2 a metre is the sum of the two conductors.
@pytest.mark.parametrize("row", table("r1_r2", Edition.A2).rows, ids=lambda row: f"{row.key('line')}/{row.key('cpc')}")
def test_r1_and_r2_a_metre_are_the_sum_of_line_and_cpc(row) -> None:
    alone = table("conductor_resistance", Edition.A2)
    line, cpc = (alone.limit("copper", row.key(side)) for side in ("line", "cpc"))
    assert line
    assert cpc
    assert row.figures["resistance"].value == line.value + cpc.value


# Source: Locke, Guide to the Wiring Regulations (Wiley, 2008), Tables 4.2 and 4.3.
@pytest.mark.parametrize(
    ("line", "cpc", "printed"),
    [
        ("1.5", "1", "30.2"),
        ("2.5", "1.5", "19.51"),
        ("4", "1.5", "16.71"),
        ("6", "2.5", "10.49"),
        ("10", "4", "6.44"),
        ("16", "6", "4.23"),
    ],
)
def test_flat_cable_reads_as_printed(line: str, cpc: str, printed: str) -> None:
    limit = table("r1_r2", Edition.A2).limit("resistance", Decimal(line), Decimal(cpc))
    assert limit
    assert limit.value == Decimal(printed)


# Source: (3.08 + 7.41) mΩ/m × 18 m = 0.1888 Ω, worked with units by an independent units library.
def test_a_run_of_cable_worked_by_hand() -> None:
    alone = table("conductor_resistance", Edition.A2)
    line, cpc = alone.limit("copper", Decimal(6)), alone.limit("copper", Decimal("2.5"))
    assert line
    assert cpc
    assert r1_r2(line, cpc, Decimal(18)).value == Decimal("0.18882")
    assert resistance(line, Decimal(18)).sum == "3.08 mΩ/m × 18 m = 0.05544 Ω"


# Source: resistance rises 0.4 % a degree from 20 °C, the simplified coefficient of UK guidance.
def test_temperature_factors_are_the_simplified_coefficient() -> None:
    alpha = table("resistance_coefficients", Edition.A2).value("simplified").value
    for row in table("temperature_factors", Edition.A2).rows:
        rise = row.figures["temperature"].value - 20
        assert row.figures["factor"].value == 1 + alpha * rise, row.texts
