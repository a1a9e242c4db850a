"""Every formula with its sum written out, its unit and the rule or table it follows, and what it does not answer.

The figures are round ones, invented so that each sum can be followed in the head.
"""

from collections.abc import Callable, Mapping
from decimal import Decimal

import pytest

from domain.figures.formulas.adiabatic import carries, highest_current, least_csa, longest_time, next_size
from domain.figures.formulas.bonding import half_the_earthing_conductor
from domain.figures.formulas.cable_rating import cable_rating
from domain.figures.formulas.conductor import at_reference, at_temperature, r1_r2, resistance, with_factor
from domain.figures.formulas.fault_current import fault_current, loop_for, three_phase_balanced, three_phase_doubled
from domain.figures.formulas.insulation import left_of, parallel
from domain.figures.formulas.loop import highest_cold_reading, highest_idn, highest_ra, inside_of, outside_of, zs
from domain.figures.formulas.ring import expected_r2, fitting_r2, lowest_crossed, margin, quarter, share_at
from domain.figures.formulas.rounding import down, half_up, measurable
from domain.figures.formulas.voltage_drop import highest_drop, highest_load, longest_run, voltage_drop
from domain.figures.formulas.working import Working
from domain.figures.limits.limit import Limit
from domain.source import Source, Trust


def d(figure: str) -> Decimal:
    return Decimal(figure)


def limit(figure: str, unit: str = "", table: str = "") -> Limit:
    return Limit(value=d(figure), unit=unit, source=Source(standard=table or "a table", trust=Trust.PUBLISHED))


U0 = limit("230", "V", "the voltage")
TWICE = limit("2", "", "the doubling")
LINE, CPC = limit("7.41", "mΩ/m", "the line"), limit("12.10", "mΩ/m", "the cpc")
ALPHA, AT_20 = limit("0.004", "", "the coefficient"), limit("20", "°C")
SHARE, LEAST, ENOUGH = limit("0.5"), limit("6", "mm²", "the least"), limit("25", "mm²")
IT = limit("27", "A", "the cable")
ZS, COLD = limit("1.09", "Ω", "the device"), limit("0.8", "", "cold")
PER_CENT, BEYOND, MORE, MOST = limit("5", "%", "the share"), limit("100", "m"), limit("0.005"), limit("0.5")

Told = tuple[Callable[[], Working | None], str, str, str]
SUMS: dict[str, Told] = {
    "least size": (lambda: least_csa(d("1000"), d("0.40"), d("115")), "5.50 mm²", "√(1000² × 0.4) / 115 = 5.5 mm²", "543.1.3"),
    "least size, current rounded in the sum alone": (lambda: least_csa(d("1000.004"), d("1"), d("100")), "10.00 mm²", "√(1000² × 1) / 100 = 10 mm²", "543.1.3"),
    "longest time": (lambda: longest_time(d("2.50"), d("500"), d("115")), "0.3306 s", "115² × 2.5² / 500² = 0.3306 s", "543.1.3"),
    "highest current": (lambda: highest_current(d("2.5"), d("0.40"), d("115")), "454.57 A", "115 × 2.5 / √0.4 = 454.57 A", "543.1.3"),
    "half the earthing conductor": (lambda: half_the_earthing_conductor(d("16"), SHARE, LEAST, ENOUGH), "8.0 mm²", "half of 16 mm² = 8 mm²", "the least"),
    "never under the least": (lambda: half_the_earthing_conductor(d("10"), SHARE, LEAST, ENOUGH), "6 mm²", "half of 10 mm² = 5 mm², but at least 6 mm²", "the least"),
    "never over the most": (lambda: half_the_earthing_conductor(d("70"), SHARE, LEAST, ENOUGH), "25 mm²", "half of 70 mm² = 35 mm², but never asked over 25 mm²", "the least"),
    "rating without factors": (lambda: cable_rating(IT, {}), "27 A", "It = 27 A", "the cable"),
    "rating with factors": (lambda: cable_rating(IT, {"Ca": d("0.90"), "Cg": d("0.8")}), "19.44 A", "It × Ca × Cg = 27 A × 0.9 × 0.8 = 19.44 A", "the cable"),
    "resistance of a run": (lambda: resistance(LINE, d("20")), "0.14820 Ω", "7.41 mΩ/m × 20 m = 0.1482 Ω", "the line"),
    "R1+R2 of a run": (lambda: r1_r2(LINE, CPC, d("20")), "0.39020 Ω", "(7.41 + 12.10) mΩ/m × 20 m = 0.3902 Ω", "the line"),
    "warmer": (lambda: at_temperature(d("0.50"), d("70"), ALPHA, AT_20), "0.6000 Ω", "0.5 Ω × (1 + 0.004 × (70 - 20)) = 0.6 Ω", "the coefficient"),
    "back from warmer": (lambda: at_reference(d("0.60"), d("70"), ALPHA, AT_20), "0.5000 Ω", "0.6 Ω / (1 + 0.004 × (70 - 20)) = 0.5 Ω", "the coefficient"),
    "back from colder": (lambda: at_reference(d("0.46"), d("0"), ALPHA, AT_20), "0.5000 Ω", "0.46 Ω / (1 + 0.004 × (0 - 20)) = 0.5 Ω", "the coefficient"),
    "by the factor of its insulation": (lambda: with_factor(d("0.50"), d("1.20")), "0.6000 Ω", "0.5 Ω × 1.2 = 0.6 Ω", ""),
    "fault current": (lambda: fault_current(U0, d("0.23")), "1000.00 A", "230 V / 0.23 Ω = 1000.00 A", "the voltage"),
    "three phases doubled": (lambda: three_phase_doubled(d("230"), d("0.230"), TWICE), "2000.00 A", "2 × 230 V / 0.23 Ω = 2000 A", "the doubling"),
    "three phases balanced": (lambda: three_phase_balanced(d("230"), d("0.230")), "1732.05 A", "√3 × 230 V / 0.23 Ω = 1732.05 A", "434.1"),
    "loop for a current": (lambda: loop_for(U0, d("1000")), "0.2300 Ω", "230 V / 1000 A = 0.23 Ω", "the voltage"),
    "loop for a current of three phases": (lambda: loop_for(U0, d("1000"), TWICE), "0.4600 Ω", "2 × 230 V / 1000 A = 0.46 Ω", "the doubling"),
    "insulation together": (lambda: parallel([d("2"), d("2"), d("1")]), "0.500 MΩ", "1 / (1/2 + 1/2 + 1/1) = 0.500 MΩ", "643.3.2"),
    "insulation of one alone": (lambda: parallel([d("3")]), "3.000 MΩ", "1 / (1/3) = 3.000 MΩ", "643.3.2"),
    "insulation of the one left": (lambda: left_of(d("0.5"), [d("2"), d("2.5")]), "0.909 MΩ", "1 / (1/0.5 - 1/2 - 1/2.5) = 0.909 MΩ", "643.3.2"),
    "Zs of its parts": (lambda: zs(d("0.35"), d("0.40")), "0.75 Ω", "0.35 Ω + 0.40 Ω = 0.75 Ω", "411.4.4"),
    "Zs of its parts, warm": (lambda: zs(d("0.35"), d("0.40"), d("1.2")), "0.830 Ω", "0.35 Ω + 0.40 Ω × 1.2 = 0.830 Ω", "411.4.4"),
    "highest cold reading": (lambda: highest_cold_reading(ZS, COLD), "0.87 Ω", "0.8 × 1.09 Ω = 0.87 Ω, rounded down", "the device"),
    "highest cold reading, exact": (lambda: highest_cold_reading(limit("1.10", "Ω", "the device"), COLD), "0.88 Ω", "0.8 × 1.10 Ω = 0.88 Ω", "the device"),
    "highest RA": (lambda: highest_ra(d("50"), d("30")), "1666.66 Ω", "50 V / 30 mA = 1666.66 Ω, rounded down", "411.5.3"),
    "highest RA, exact": (lambda: highest_ra(d("50"), d("100.0")), "500.00 Ω", "50 V / 100 mA = 500 Ω", "411.5.3"),
    "highest residual current": (lambda: highest_idn(d("50"), d("30")), "1666.66 mA", "50 V / 30 Ω = 1666.66 mA, rounded down", "411.5.3"),
    "highest residual current, exact": (lambda: highest_idn(d("50"), d("100.0")), "500.00 mA", "50 V / 100 Ω = 500 mA", "411.5.3"),
    "R1+R2 inside": (lambda: inside_of(d("0.75"), d("0.35")), "0.4000 Ω", "0.75 Ω - 0.35 Ω = 0.4 Ω", "411.4.4"),
    "R1+R2 inside, cold": (lambda: inside_of(d("0.83"), d("0.35"), d("1.2")), "0.4000 Ω", "(0.83 Ω - 0.35 Ω) / 1.2 = 0.4 Ω", "411.4.4"),
    "Ze outside": (lambda: outside_of(d("0.75"), d("0.40")), "0.35 Ω", "0.75 Ω - 0.40 Ω = 0.35 Ω", "411.4.4"),
    "Ze outside, warm": (lambda: outside_of(d("0.83"), d("0.40"), d("1.2")), "0.350 Ω", "0.83 Ω - 0.40 Ω × 1.2 = 0.35 Ω", "411.4.4"),
    "a quarter of a ring": (lambda: quarter(d("0.40"), d("0.60")), "0.25 Ω", "(r1 + r2) / 4 = (0.40 + 0.60) / 4 = 0.25 Ω", "643.2.1"),
    "a quarter of line and neutral": (lambda: quarter(d("0.40"), d("0.40"), "r1 + rn"), "0.20 Ω", "(r1 + rn) / 4 = (0.40 + 0.40) / 4 = 0.20 Ω", "643.2.1"),
    "lowest crossed": (lambda: lowest_crossed(d("0.3"), d("0.6")), "0.200 Ω", "r1 × r2 / (r1 + r2) = 0.3 × 0.6 / (0.3 + 0.6) = 0.200 Ω, at the board", ""),
    "r2 of a ring": (lambda: expected_r2(d("0.60"), d("1.66667")), "1.000 Ω", "r1 × 1.667 = 1.000 Ω", ""),
    "voltage drop": (lambda: voltage_drop(d("11.0"), d("20"), d("15")), "3.30 V", "11 mV/A/m × 20 A × 15 m / 1000 = 3.3 V", "525"),
    "longest run": (lambda: longest_run(d("11.0"), d("20"), U0, PER_CENT, BEYOND, MORE, MOST), "52.2 m", "11.5 V × 1000 / (11 mV/A/m × 20 A) = 52.2 m", "the share"),
    "highest load": (lambda: highest_load(d("1.10"), d("15"), d("69.0")), "4181.8 A", "69 V × 1000 / (1.1 mV/A/m × 15 m) = 4181.8 A", "525"),
}  # fmt: skip


@pytest.mark.parametrize("name", SUMS)
def test_a_figure_worked_out_is_shown_with_its_unit_its_sum_and_the_rule_it_follows(name: str) -> None:
    work, shown, written, source = SUMS[name]
    told = work()
    assert told is not None
    assert (told.shown, told.sum) == (shown, written)
    assert source in (told.source.cited if told.source else "nothing but arithmetic")
    assert bool(told.source) is bool(source)


def test_no_circuit_is_left_where_the_others_give_as_little_together() -> None:
    assert left_of(d("0.5"), [d("1"), d("1")]) is None
    assert left_of(d("0.6"), [d("1"), d("1")]) is None


def test_what_was_rounded_or_added_up_is_told_beside_the_sum() -> None:
    assert highest_cold_reading(ZS, COLD).notes == ("unrounded 0.872 Ω", "cold")
    assert r1_r2(LINE, CPC, d("20")).notes == ("7.41 mΩ/m × 20 m = 0.1482 Ω", "12.10 mΩ/m × 20 m = 0.242 Ω")


Formula = Callable[..., object]
ASKED: Mapping[str, tuple[Formula, tuple[Decimal | Limit, ...]]] = {
    "least size": (least_csa, (d("1000"), d("0.4"), d("115"))),
    "longest time": (longest_time, (d("2.5"), d("500"), d("115"))),
    "highest current": (highest_current, (d("2.5"), d("0.4"), d("115"))),
    "half the earthing conductor": (lambda size: half_the_earthing_conductor(size, SHARE, LEAST, ENOUGH), (d("16"),)),
    "rating": (lambda it, ca, cg: cable_rating(it, {"Ca": ca, "Cg": cg}), (IT, d("0.9"), d("0.8"))),
    "warmer": (lambda r, alpha: at_temperature(r, d("70"), alpha, AT_20), (d("0.5"), ALPHA)),
    "back from warmer": (lambda r, alpha: at_reference(r, d("70"), alpha, AT_20), (d("0.5"), ALPHA)),
    "by a factor": (with_factor, (d("0.5"), d("1.2"))),
    "three phases doubled": (three_phase_doubled, (d("230"), d("0.23"), TWICE)),
    "three phases balanced": (three_phase_balanced, (d("230"), d("0.23"))),
    "loop for a current": (loop_for, (U0, d("1000"))),
    "highest RA": (highest_ra, (d("50"), d("30"))),
    "highest residual current": (highest_idn, (d("50"), d("30"))),
    "voltage drop": (voltage_drop, (d("11"), d("20"), d("15"))),
    "longest run": (lambda by, current: longest_run(by, current, U0, PER_CENT, BEYOND, MORE, MOST), (d("11"), d("20"))),
    "highest load": (highest_load, (d("11"), d("15"), d("6.9"))),
}
EACH = [(name, at) for name, (_, given) in ASKED.items() for at in range(len(given))]
NONE_SUCH = ("0", "-1", "Infinity", "NaN", "1E-10", "1000000001")


@pytest.mark.parametrize(("name", "at"), EACH, ids=[f"{name}, {at + 1}" for name, at in EACH])
def test_nothing_is_worked_out_of_nought_or_what_is_no_size_of_the_trade(name: str, at: int) -> None:
    formula, given = ASKED[name]
    assert formula(*given) is not None
    for text in NONE_SUCH:
        asked = [*given]
        was = asked[at]
        asked[at] = was.model_copy(update={"value": d(text)}) if isinstance(was, Limit) else d(text)
        assert formula(*asked) is None


@pytest.mark.parametrize("at", range(4))
def test_a_conductor_of_no_size_carries_nothing_and_no_fault_of_no_size_is_carried(at: int) -> None:
    sound = [d("2.5"), d("500"), d("0.33"), d("115")]
    assert carries(*sound)
    for text in NONE_SUCH:
        assert not carries(*(d(text) if place == at else each for place, each in enumerate(sound)))


def test_a_conductor_carries_what_it_just_carries_and_the_next_size_is_the_first_that_does() -> None:
    assert carries(d("4"), d("400"), d("1"), d("100"))
    assert not carries(d("4"), d("400.01"), d("1"), d("100"))
    assert next_size([d("2.5"), d("4"), d("6")], d("400"), d("1"), d("100")) == 4
    assert next_size([d("2.5")], d("400"), d("1"), d("100")) is None


@pytest.mark.parametrize(
    ("temperature", "warm", "cold"),
    [("1000", "2.4600", "0.1016"), ("1000.1", None, None), ("-1000", None, None), ("NaN", None, None), ("Infinity", None, None), ("-230", "0.0000", None), ("-229", "0.0020", "125.0000"), ("-231", None, None), ("20", "0.5000", "0.5000"), ("-1001", None, None)],
)  # fmt: skip
def test_a_resistance_is_taken_to_another_temperature_as_far_as_the_straight_line_goes(
    temperature: str, warm: str | None, cold: str | None
) -> None:
    told = [turn(d("0.5"), d(temperature), ALPHA, AT_20) for turn in (at_temperature, at_reference)]
    assert [each and str(each.value) for each in told] == [warm, cold]


def test_a_figure_longer_than_any_sum_needs_is_rounded_all_the_same() -> None:
    assert half_up(d("1E40"), 2) == down(d("1E40"), 2) == d("1E40")


def test_a_size_of_the_trade_lies_between_a_thousand_millionth_and_a_thousand_million() -> None:
    assert measurable(d("1E-9"), d("1E9"))
    assert measurable()
    assert not measurable(d("1"), d("0.99E-9"))
    assert not measurable(d("1.01E9"), d("1"))


@pytest.mark.parametrize(
    ("length", "volts"), [("100", "11.500"), ("99", "11.500"), ("150", "12.075"), ("200", "12.650"), ("1000", "12.650")]
)
def test_a_long_run_may_drop_a_little_more_up_to_the_most(length: str, volts: str) -> None:
    assert highest_drop(U0, PER_CENT, d(length), BEYOND, MORE, MOST) == d(volts)


@pytest.mark.parametrize(
    ("millivolts", "metres", "volts"),
    [("115", "100.0", "11.5"), ("100", "116.9", "11.69"), ("63.25", "200.0", "12.65"), ("60", "210.8", "12.65"), ("11.5", "1100.0", "12.65"), ("10", "1265.0", "12.65")],
)  # fmt: skip
def test_the_longest_run_is_the_one_whose_drop_is_just_allowed_at_its_own_length(
    millivolts: str, metres: str, volts: str
) -> None:
    told = longest_run(d(millivolts), d("1"), U0, PER_CENT, BEYOND, MORE, MOST)
    assert told is not None
    assert told.shown == f"{metres} m"
    assert told.sum.startswith(f"{volts} V × 1000 / (")
    allowed = highest_drop(U0, PER_CENT, told.value, BEYOND, MORE, MOST)
    over = highest_drop(U0, PER_CENT, told.value + d("0.1"), BEYOND, MORE, MOST)
    assert d(millivolts) * told.value / 1000 <= allowed
    assert d(millivolts) * (told.value + d("0.1")) / 1000 > over


FLAT, TENTH = limit("0.05", "Ω"), limit("0.10")


@pytest.mark.parametrize(("expected", "more"), [("0.40", "0.05"), ("0.50", "0.05"), ("0.55", "0.06"), ("1.44", "0.14")])
def test_a_reading_of_a_ring_may_be_off_by_a_flat_part_or_by_its_share_where_that_is_more(
    expected: str, more: str
) -> None:
    assert margin(d(expected), FLAT, TENTH) == d(more)


def test_r2_fits_between_the_lowest_and_the_highest_ratio_with_the_margin_of_the_highest() -> None:
    assert fitting_r2(d("0.60"), [d("1.5"), d("1"), d("2")], FLAT, TENTH) == (d("0.48"), d("1.32"))


@pytest.mark.parametrize(
    ("reading", "share"), [("0.2000", "0"), ("0.2250", "0.5"), ("0.2187", "0.25"), ("0.1999", None), ("0.2251", None)]
)
def test_where_along_a_ring_a_reading_stands_is_told_by_its_nearer_end(reading: str, share: str | None) -> None:
    """Of legs of 0.3 and 0.6 Ω: 0.2 Ω at the board, 0.225 Ω half way round, (0.375 × 0.525) / 0.9 a quarter round."""
    found = share_at(d("0.3"), d("0.6"), d(reading))
    assert (found is None) is (share is None)
    if found is not None and share is not None:
        assert abs(found - d(share)) < d("0.01")
