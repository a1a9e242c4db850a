"""Source: IEC 60364-5-54, Annex A: k = K × √ln((β + final) / (β + initial)); K and β from IEC 60949."""

import math

import pytest

from domain.edition import Edition
from domain.figures.limits.loader import table
from domain.figures.limits.table import LimitRow

CONSTANTS = {"copper": (226, 234.5), "aluminium": (148, 228), "lead": (41, 230), "steel": (78, 202)}


@pytest.mark.parametrize(
    "row", table("k_values", Edition.A2).rows, ids=lambda row: f"{row.texts['material']}, {row.texts['conductor']}"
)
def test_every_k_follows_from_the_temperatures_of_its_conductor(row: LimitRow) -> None:
    constant, beta = CONSTANTS[row.texts["material"]]
    initial, final = (float(row.figures[end].value) for end in ("initial", "final"))
    derived = constant * math.sqrt(math.log((beta + final) / (beta + initial)))
    assert abs(float(row.figures["k"].value) - derived) <= 0.6


def test_the_constants_are_those_of_the_formula() -> None:
    held = {
        row.texts["material"]: (float(row.figures["constant"].value), float(row.figures["beta"].value))
        for row in table("k_constants", Edition.A2).rows
    }
    assert held == CONSTANTS


# Source: three open worked examples of the adiabatic equation use 115 for copper in 70 °C cable.
def test_the_usual_cable_has_the_usual_k() -> None:
    row = table("k_values", Edition.A2).row("copper", "70 °C thermoplastic in cable, up to 300 mm²")
    assert row
    assert row.figures["k"].value == 115
