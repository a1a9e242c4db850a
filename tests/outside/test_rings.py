"""Source: Kirchhoff's laws, solved for the ring with its legs crossed at the board (the second and third ring test)."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.formulas.ring import crossed_at, expected_r2, lowest_crossed, quarter
from tests.outside.nodal import resistance_between

OHMS = st.decimals("0.01", "5", places=2)
SHARES = st.decimals("0.01", "0.99", places=2)


def crossed_ring(r1: Decimal, r2: Decimal, share: Decimal) -> Fraction:
    """Line ring from A to B, cpc ring from B to A; the reading is taken at a socket a share of the way round."""
    one, two, x = Fraction(r1), Fraction(r2), Fraction(share)
    net = [
        ("A", "socket L", x * one),
        ("socket L", "B", (1 - x) * one),
        ("B", "socket E", x * two),
        ("socket E", "A", (1 - x) * two),
    ]
    return resistance_between("socket L", "socket E", net)


@given(OHMS, OHMS, SHARES)
def test_the_closed_form_is_the_solved_net_anywhere_on_the_ring(r1: Decimal, r2: Decimal, share: Decimal) -> None:
    assert abs(Fraction(crossed_at(r1, r2, share)) - crossed_ring(r1, r2, share)) < Fraction(1, 10**20)


@given(OHMS, OHMS)
def test_a_quarter_of_both_ends_is_the_reading_half_way_round(r1: Decimal, r2: Decimal) -> None:
    assert Fraction(quarter(r1, r2).value) == crossed_ring(r1, r2, Decimal("0.5"))


@given(OHMS, OHMS, SHARES)
def test_every_reading_lies_between_the_one_at_the_board_and_the_quarter(
    r1: Decimal, r2: Decimal, share: Decimal
) -> None:
    reading = crossed_ring(r1, r2, share)
    assert Fraction(lowest_crossed(r1, r2).value) - Fraction(1, 1000) <= reading <= Fraction(quarter(r1, r2).value)


@given(OHMS, SHARES)
def test_line_and_neutral_of_one_size_read_the_same_everywhere(r1: Decimal, share: Decimal) -> None:
    assert crossed_ring(r1, r1, share) == Fraction(r1) / 2


@given(OHMS, OHMS, SHARES)
def test_a_spur_reads_higher_by_its_own_cable(r1: Decimal, r2: Decimal, share: Decimal) -> None:
    one, two, x, spur = Fraction(r1), Fraction(r2), Fraction(share), Fraction(1, 10)
    net = [("A", "L", x * one), ("L", "B", (1 - x) * one), ("B", "E", x * two), ("E", "A", (1 - x) * two)]
    at_spur = resistance_between("spur L", "spur E", [*net, ("L", "spur L", spur), ("E", "spur E", spur)])
    assert at_spur == crossed_ring(r1, r2, share) + 2 * spur


# Source: an article on step 3 readings in Wiring Matters, March 2022: 2.5/1.5 varies little round the ring, 4/1.5 clearly.
def test_readings_vary_little_on_2_5_with_1_5_and_clearly_on_4_with_1_5() -> None:
    def spread(r1: Decimal, r2: Decimal) -> Decimal:
        return 1 - lowest_crossed(r1, r2).value / quarter(r1, r2).value

    assert spread(Decimal("0.741"), Decimal("1.21")) < Decimal("0.07")
    assert spread(Decimal("0.461"), Decimal("1.21")) > Decimal("0.15")


# Source: ring test guidance of the trade: on 2.5/1.5 cable r2 is about 1.67 times r1 by size, 1.63 by IEC 60228.
@pytest.mark.parametrize(("r1", "ratio", "r2"), [("0.60", "1.67", "1.002"), ("0.60", "1.633", "0.980")])
def test_the_cpc_of_a_usual_ring_is_about_five_thirds_of_the_line(r1: str, ratio: str, r2: str) -> None:
    assert expected_r2(Decimal(r1), Decimal(ratio)).value == Decimal(r2)
