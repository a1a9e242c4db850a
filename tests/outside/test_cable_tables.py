"""Source: IEC 60228 and IEC 60287; tables of Appendix 4 against the physics of warm copper."""

from decimal import Decimal

import pytest

from domain.edition import Edition
from domain.figures.formulas.rounding import half_up
from domain.figures.limits.cables import (
    CAPACITY_TABLES,
    DROP_TABLES,
    PHASES,
    capacity,
    capacity_sizes,
    drop_rows,
    methods,
)
from domain.figures.limits.loader import table
from domain.figures.limits.table import LimitRow

A2 = Edition.A2
FOR_70, FOR_90 = ("4D1B", "4D2B", "4D4B", "4D5"), ("4E1B", "4E2B", "4E4B")
UP_TO_16 = [row for cable in FOR_70 for row in drop_rows(cable, A2) if row.figures["csa"].value <= 16]
HOT_UP_TO_16 = [row for cable in FOR_90 for row in drop_rows(cable, A2) if row.figures["csa"].value <= 16]
ALL_DROPS = [row for cable in DROP_TABLES for row in drop_rows(cable, A2)]


def described(row: LimitRow) -> str:
    return f"{row.texts['cable']} {row.texts['laid']} {row.figures['csa'].value}"


def r20(row: LimitRow) -> Decimal:
    limit = table("conductor_resistance", A2).limit("copper", row.figures["csa"].value)
    assert limit
    return limit.value


# Source: two conductors of IEC 60228 resistance, warmed by 0.4 % a degree from 20 °C to 70 °C or 90 °C.
@pytest.mark.parametrize(("rows", "warmed"), [(UP_TO_16, "1.20"), (HOT_UP_TO_16, "1.28")], ids=["70 °C", "90 °C"])
def test_small_cables_drop_what_two_warm_conductors_drop(rows: list[LimitRow], warmed: str) -> None:
    assert len(rows) >= 6
    for row in rows:
        worked = 2 * r20(row) * Decimal(warmed)
        assert abs(row.figures["single_phase"].value / worked - 1) < Decimal("0.025"), described(row)


# Source: two solid conductors of IEC 60228 at 70 °C; mineral insulated cable stays a little cooler inside its sheath.
def test_mineral_cables_drop_no_more_than_two_conductors_at_the_heat_of_the_sheath() -> None:
    rows = drop_rows("4G1B", A2)
    assert len(rows) > 5
    for row in rows:
        share = row.figures["single_phase"].value / (2 * r20(row) * Decimal("1.20"))
        assert Decimal("0.90") < share <= 1, described(row)


# Source: three balanced phases drop √3 times one conductor, single phase twice one conductor: a ratio of 0.866.
@pytest.mark.parametrize("row", [row for row in ALL_DROPS if "three_phase" in row.figures], ids=described)
def test_three_phases_drop_root_three_for_every_two_of_a_single_phase(row: LimitRow) -> None:
    ratio = row.figures["three_phase"].value / row.figures["single_phase"].value
    assert Decimal("0.82") <= ratio <= Decimal("0.91")


# Source: from 25 mm² the tables print impedance, which is no less than the resistance of the warm conductors.
@pytest.mark.parametrize("row", [row for row in ALL_DROPS if row.figures["csa"].value >= 25], ids=described)
def test_large_cables_drop_no_less_than_their_resistance(row: LimitRow) -> None:
    warmed = Decimal("1.28") if row.texts["cable"] in FOR_90 else Decimal("1.20")
    assert row.figures["single_phase"].value >= half_up(2 * r20(row) * warmed * Decimal("0.99"), 2)


# Source: IEC 60364-5-52, Annex B: the factor is the root of (highest - ambient) / (highest - 30), to two places.
@pytest.mark.parametrize(
    "row",
    [row for row in table("ambient_factors", A2).rows if "mineral" not in row.texts["insulation"]],
    ids=lambda row: f"{row.key('insulation')} {row.key('ambient')}",
)
def test_the_factor_for_warm_air_follows_from_the_highest_temperature_of_the_insulation(row: LimitRow) -> None:
    highest = Decimal(row.texts["insulation"].split(" ")[0])
    worked = ((highest - row.figures["ambient"].value) / (highest - 30)).sqrt()
    factor = row.figures["factor"].value
    if row.figures["ambient"].value >= 30:
        assert abs(factor - worked) <= Decimal("0.006")
    else:
        assert 1 < factor < worked, "in cool air the table is stricter than the root"


# Source: IEC 60364-5-52: a thicker conductor carries more, and three loaded conductors less than two.
@pytest.mark.parametrize("cable", CAPACITY_TABLES)
def test_a_thicker_conductor_carries_more_and_three_loaded_ones_less_than_two(cable: str) -> None:
    sizes = capacity_sizes(cable, A2)
    assert list(sizes) == sorted(sizes)
    for method in methods(cable, 1, A2):
        one = [capacity(cable, size, method, 1, A2) for size in sizes]
        three = [capacity(cable, size, method, 3, A2) for size in sizes]
        figures = [limit.value for limit in one if limit]
        assert len(figures) == len(sizes)
        assert figures == sorted(set(figures))
        assert all(
            both is None or (single and both.value < single.value) for single, both in zip(one, three, strict=True)
        )


# Source: IEC 60364-5-52, reference methods: A in an insulated wall is warmest, then B in conduit, then C on a surface.
@pytest.mark.parametrize("cable", ["4D1A", "4D2A", "4E1A", "4E2A"])
@pytest.mark.parametrize("phases", PHASES)
def test_a_cable_carries_more_where_it_cools_better(cable: str, phases: int) -> None:
    for size in capacity_sizes(cable, A2):
        laid = [capacity(cable, size, method, phases, A2) for method in methods(cable, phases, A2)]
        figures = [limit.value for limit in laid if limit]
        assert len(figures) >= 3
        assert figures == sorted(figures)


# Source: IEC 60287: losses balance cooling, so a cable good for 90 °C carries more than the same one for 70 °C.
# In the air the rise is 60 K in place of 40 K, and the resistance 7 % more: about √(60 / (40 × 1.07)) = 1.18 and more.
@pytest.mark.parametrize(("hot", "cool"), [("4E1A", "4D1A"), ("4E2A", "4D2A"), ("4E4A", "4D4A")])
@pytest.mark.parametrize("phases", PHASES)
def test_a_cable_for_90_degrees_carries_more_than_one_for_70(hot: str, cool: str, phases: int) -> None:
    for size in set(capacity_sizes(hot, A2)) & set(capacity_sizes(cool, A2)):
        for method in methods(hot, phases, A2):
            at_90, at_70 = capacity(hot, size, method, phases, A2), capacity(cool, size, method, phases, A2)
            assert at_90
            assert at_70
            assert Decimal("1.13") < at_90.value / at_70.value < Decimal("1.37")


# Source: IEC 60287 again: armour takes part of the heat away from the surface, on a tray more than on a wall, and the
# current a conductor carries grows with less than its size.
@pytest.mark.parametrize("cable", ["4D4A", "4E4A"])
@pytest.mark.parametrize("phases", PHASES)
def test_armoured_cables_carry_more_in_free_air_than_on_a_wall_and_grow_slower_than_their_size(
    cable: str, phases: int
) -> None:
    sizes = capacity_sizes(cable, A2)
    for size in sizes:
        on_a_wall, in_air = (capacity(cable, size, method, phases, A2) for method in "CE")
        assert on_a_wall
        assert in_air
        assert on_a_wall.value < in_air.value < on_a_wall.value * Decimal("1.12")
    for method in "CED":
        figures = [limit.value for limit in (capacity(cable, size, method, phases, A2) for size in sizes) if limit]
        shares = [current / size for current, size in zip(figures, sizes, strict=True)]
        assert shares == sorted(shares, reverse=True)


def test_more_circuits_together_and_more_insulation_never_let_a_cable_carry_more() -> None:
    for name in ("grouping_factors", "thermal_insulation_factors", "ambient_factors"):
        rows = table(name, A2)
        groups: dict[tuple[str, ...], list[Decimal]] = {}
        for row in rows.rows:
            groups.setdefault(tuple(row.texts.values()), []).append(row.figures["factor"].value)
        assert all(factors == sorted(factors, reverse=True) for factors in groups.values()), name


# Source: a maker's open installation manual printing column B2 of IEC 60364-5-52 for three loaded conductors.
@pytest.mark.parametrize(
    ("csa", "printed"),
    [
        ("4", 27),
        ("6", 34),
        ("10", 46),
        ("16", 62),
        ("25", 80),
        ("35", 99),
        ("50", 118),
        ("70", 149),
        ("95", 179),
        ("120", 206),
    ],
)
def test_multicore_cables_in_conduit_carry_what_the_international_table_says(csa: str, printed: int) -> None:
    limit = capacity("4D2A", Decimal(csa), "B", 3, A2)
    assert limit
    assert limit.value == printed


# Source: an open volt-drop reference and open shop tables: flat cable clipped direct.
@pytest.mark.parametrize(("csa", "printed"), [("1.5", 20), ("2.5", 27), ("4", 37), ("6", 47), ("10", 64), ("16", 85)])
def test_flat_cable_clipped_direct_carries_what_is_printed(csa: str, printed: int) -> None:
    limit = capacity("4D5", Decimal(csa), "C", 1, A2)
    assert limit
    assert limit.value == printed


# Source: Locke, Guide to the Wiring Regulations (Wiley, 2008), Table 4.4; the armour of a thicker cable has more steel.
def test_armour_has_less_resistance_the_more_and_thicker_the_cores() -> None:
    rows = table("armour_resistance", A2).rows
    by_place = {(row.figures["cores"].value, row.figures["csa"].value): row.figures["resistance"].value for row in rows}
    assert by_place[Decimal(3), Decimal(4)] == Decimal("7.5")
    for (cores, csa), ohms in by_place.items():
        others = [value for (more, thicker), value in by_place.items() if more >= cores and thicker >= csa]
        assert max(others) == ohms
