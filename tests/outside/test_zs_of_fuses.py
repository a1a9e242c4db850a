"""Zs of fuses has no formula; what is checked is physics, and figures printed before Cmin was brought in."""

from decimal import ROUND_DOWN, ROUND_HALF_UP, Decimal

import pytest

from domain.edition import Edition
from domain.figures.limits.loader import table

FUSES = ("zs_bs88_2", "zs_bs88_3", "zs_bs3036", "zs_bs1362", "zs_bs1361", "zs_bs88_2_2")


@pytest.mark.parametrize("name", FUSES)
@pytest.mark.parametrize("time", ["within_0_4_s", "within_5_s"])
def test_a_larger_fuse_needs_a_lower_zs(name: str, time: str) -> None:
    limits = [row.figures[time].value for row in table(name, Edition.A2).rows if time in row.figures]
    assert limits == sorted(limits, reverse=True)
    assert len(set(limits)) == len(limits)


@pytest.mark.parametrize("name", FUSES)
def test_more_time_allows_a_higher_zs(name: str) -> None:
    rows = [row for row in table(name, Edition.A2).rows if "within_0_4_s" in row.figures]
    assert rows
    assert all(row.figures["within_0_4_s"].value < row.figures["within_5_s"].value for row in rows)


# Source: older printed tables at Cmin 1 for BS 88-2.2 within 0.4 s, the part that today's BS 88-2 replaced.
@pytest.mark.parametrize(("rating", "printed"), [("16", "2.70"), ("20", "1.77"), ("25", "1.44"), ("32", "1.04")])
def test_bs_88_2_is_close_to_the_part_it_replaced_at_the_least_voltage_and_never_above(
    rating: str, printed: str
) -> None:
    limit = table("zs_bs88_2", Edition.A2).limit("within_0_4_s", Decimal(rating))
    assert limit
    older = Decimal(printed) * Decimal("0.95")
    assert older * Decimal("0.9") <= limit.value <= older.quantize(Decimal("0.01"), ROUND_HALF_UP)


# Source: BS 7671:2008 Table 41.2(b) and 41.4(b), from memory; withdrawn from the 2018 tables.
@pytest.mark.parametrize(
    ("rating", "time", "printed"),
    [
        ("5", "within_0_4_s", "10.45"),
        ("20", "within_0_4_s", "1.70"),
        ("30", "within_5_s", "1.84"),
        ("100", "within_5_s", "0.36"),
    ],
)
def test_bs_1361_is_the_older_figure_at_the_least_voltage(rating: str, time: str, printed: str) -> None:
    limit = table("zs_bs1361", Edition.A2).limit(time, Decimal(rating))
    assert limit
    assert limit.value == (Decimal(printed) * Decimal("0.95")).quantize(Decimal("0.01"), ROUND_HALF_UP)


# Source: BS 7671:2008 Tables 41.2(a) and 41.4(a); 0.4 s as printed in Connections magazine, Winter 2011-12, 5 s from memory.
@pytest.mark.parametrize(
    ("rating", "time", "printed"),
    [
        ("6", "within_0_4_s", "8.52"),
        ("10", "within_0_4_s", "5.11"),
        ("16", "within_0_4_s", "2.70"),
        ("32", "within_0_4_s", "1.04"),
        ("32", "within_5_s", "1.84"),
        ("63", "within_5_s", "0.82"),
        ("100", "within_5_s", "0.42"),
    ],
)
def test_the_older_parts_of_bs_88_are_the_older_figure_at_the_least_voltage(
    rating: str, time: str, printed: str
) -> None:
    limit = table("zs_bs88_2_2", Edition.A2).limit(time, Decimal(rating))
    assert limit
    assert limit.value == (Decimal(printed) * Decimal("0.95")).quantize(Decimal("0.01"), ROUND_HALF_UP)


# Source: 50 V / IΔn, BS 7671 regulation 411.5.3; the table prints whole ohms, two of them rounded up.
def test_rcd_limits_follow_from_the_touch_voltage() -> None:
    for row in table("rcd_fault_protection", Edition.A2).rows:
        exact = Decimal(50) / row.figures["idn"].value * 1000
        assert row.figures["at_most"].value == exact.quantize(Decimal(1), ROUND_HALF_UP)
        assert row.figures["at_most"].value - exact.quantize(Decimal(1), ROUND_DOWN) <= 1
