"""Every figure that is worked out rises, or falls, with each number it is asked with."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.domain.figures.asked.typed import asked

NUMBERS = st.decimals(min_value=Decimal("0.01"), max_value=Decimal(9), places=2)
RISES, FALLS = 1, -1
ASKED = [
    ("zs / ze={} / r1r2=0.5 / factor=1.2", RISES),
    ("zs / ze=0.35 / r1r2={} / factor=1.2", RISES),
    ("zs / ze=0.35 / r1r2=0.5 / factor={}", RISES),
    ("r1-r2 / line=2.5 / cpc=1.5 / length={}", RISES),
    ("r1-r2 / line=2.5 / cpc=1.5 / length=20 / factor={}", RISES),
    ("r1-r2 / line=2.5 / cpc=1.5 / length=20 / temperature={}", RISES),
    ("resistance-at / r20={} / temperature=70", RISES),
    ("resistance-at / r20=0.5 / temperature={}", RISES),
    ("ring / r1={} / r2=1", RISES),
    ("ring / r1=0.6 / r2={}", RISES),
    ("insulation / parallel={},5,2", RISES),
    ("ra-max / idn={}", FALLS),
    ("ra-max / idn=30 / touch={}", RISES),
    ("fault-current / u0={} / z=0.35", RISES),
    ("fault-current / z={}", FALLS),
    ("fault-current / phases=3 / z={}", FALLS),
    ("adiabatic / current={} / time=0.4 / k=115", RISES),
    ("adiabatic / zs={} / time=0.4 / insulation=PVC", FALLS),
    ("adiabatic / current=500 / time=0.4 / k={}", FALLS),
    ("volt-drop / mv-per-a-m={} / current=20 / length=20", RISES),
    ("volt-drop / table=4D5 / csa=2.5 / current={} / length=20", RISES),
    ("volt-drop / table=4D5 / csa=2.5 / current=20 / length={}", RISES),
    ("bonding / supply=PME / neutral={}", RISES),
    ("bonding / supply=TT / earthing={}", RISES),
    ("cable-rating / table=4D2A / csa=4 / method=B / ambient={}", FALLS),
    ("cable-rating / table=4D2A / csa=4 / method=B / in-insulation={}", FALLS),
]
WIDER = {"bonding": 20, "cable-rating / table=4D2A / csa=4 / method=B / ambient": 6, "cable-rating": 70}
"""Where the figures change over a wider range, what a number is multiplied by."""


def scale(line: str) -> int:
    return next((by for start, by in WIDER.items() if line.startswith(start)), 1)


@pytest.mark.parametrize(("line", "way"), ASKED)
@given(one=NUMBERS, other=NUMBERS)
def test_a_figure_rises_or_falls_with_each_number_typed(line: str, way: int, one: Decimal, other: Decimal) -> None:
    less, more = (asked(line.format(each * scale(line))).value for each in sorted((one, other)))
    assert less is not None
    assert more is not None
    assert (more - less) * way >= 0


@given(NUMBERS, NUMBERS)
def test_more_circuits_together_never_let_a_cable_carry_more(one: Decimal, other: Decimal) -> None:
    fewer, more = sorted((max(1, int(one * 2)), max(1, int(other * 2))))
    line = "cable-rating / table=4D5 / csa=2.5 / method=C / circuits={}"
    at_few, at_many = asked(line.format(fewer)).value, asked(line.format(more)).value
    assert at_few is not None
    assert at_many is not None
    assert at_many <= at_few
