"""Source: Kirchhoff's laws, solved for the ring with its legs crossed at the board (the second and third ring test)."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.figures.formulas.ring import crossed_at, expected_r2, lowest_crossed, quarter
from tests.outside.nodal import resistance_between

OHMS = st.decimals("0.01", "5", places=2)
SHARES = st.decimals("0.01", "0.99", places=2)
SAME = 1e-9
"""What binary arithmetic may leave."""


def legs(r1: Decimal, r2: Decimal, share: Decimal) -> list[tuple[str, str, Decimal]]:
    """Line ring from A to B, cpc ring from B to A, with a socket a share of the way round."""
    return [
        ("A", "socket L", share * r1),
        ("socket L", "B", (1 - share) * r1),
        ("B", "socket E", share * r2),
        ("socket E", "A", (1 - share) * r2),
    ]


def crossed_ring(r1: Decimal, r2: Decimal, share: Decimal) -> float:
    """The reading between line and cpc at that socket."""
    return resistance_between("socket L", "socket E", legs(r1, r2, share))


@given(OHMS, OHMS, SHARES)
def test_the_closed_form_is_the_solved_net_anywhere_on_the_ring(r1: Decimal, r2: Decimal, share: Decimal) -> None:
    assert float(crossed_at(r1, r2, share)) == pytest.approx(crossed_ring(r1, r2, share), rel=SAME)


@given(OHMS, OHMS)
def test_a_quarter_of_both_ends_is_the_reading_half_way_round(r1: Decimal, r2: Decimal) -> None:
    assert float(quarter(r1, r2).value) == pytest.approx(crossed_ring(r1, r2, Decimal("0.5")), rel=SAME)


@given(OHMS, OHMS, SHARES)
def test_every_reading_lies_between_the_one_at_the_board_and_the_quarter(
    r1: Decimal, r2: Decimal, share: Decimal
) -> None:
    reading = crossed_ring(r1, r2, share)
    assert float(lowest_crossed(r1, r2).value) - 0.001 <= reading <= float(quarter(r1, r2).value) * (1 + SAME)


@given(OHMS, SHARES)
def test_line_and_neutral_of_one_size_read_the_same_everywhere(r1: Decimal, share: Decimal) -> None:
    assert crossed_ring(r1, r1, share) == pytest.approx(float(r1) / 2, rel=SAME)


@given(OHMS, OHMS, SHARES)
def test_a_spur_reads_higher_by_its_own_cable(r1: Decimal, r2: Decimal, share: Decimal) -> None:
    spur = Decimal("0.1")
    net = [*legs(r1, r2, share), ("socket L", "spur L", spur), ("socket E", "spur E", spur)]
    expected = crossed_ring(r1, r2, share) + 2 * float(spur)
    assert resistance_between("spur L", "spur E", net) == pytest.approx(expected, rel=SAME)


# Source: readings of the crossed ring by lcapy 1.26, a circuit analysis library, which gives the impedance between two
# nodes of a net list; run once apart from the project, as it and what it needs take half a gigabyte.
@pytest.mark.parametrize(
    ("r1", "r2", "share", "reading"),
    [
        ("0.741", "1.21", "0.5", 0.48775),
        ("0.741", "1.21", "0.25", 0.48070358149666836),
        ("0.741", "1.21", "0.1", 0.46971116863147105),
        ("0.461", "1.21", "0.5", 0.41775),
        ("0.461", "1.21", "0.2", 0.3875345062836625),
        ("0.6", "1.0", "0.4", 0.399),
        ("0.32", "0.53", "0.75", 0.20925735294117648),
    ],
)
def test_the_closed_form_is_what_a_circuit_analysis_library_gives(r1: str, r2: str, share: str, reading: float) -> None:
    assert float(crossed_at(Decimal(r1), Decimal(r2), Decimal(share))) == pytest.approx(reading, rel=SAME)


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
