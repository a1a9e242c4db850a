"""Every formula: more of what makes it worse gives no less, and no figure whatever makes it fail."""

from collections.abc import Callable
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.edition import Edition
from domain.figures.formulas.adiabatic import carries, least_csa, next_size
from domain.figures.formulas.bonding import half_the_earthing_conductor
from domain.figures.formulas.cable_rating import cable_rating
from domain.figures.formulas.conductor import at_temperature, with_factor
from domain.figures.formulas.fault_current import three_phase_balanced, three_phase_doubled
from domain.figures.formulas.loop import highest_ra
from domain.figures.formulas.rounding import down, half_up
from domain.figures.formulas.voltage_drop import voltage_drop
from domain.figures.formulas.working import Working
from domain.figures.limits.conductors import size_not_under, sizes_as_made
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure
from domain.source import Source, Trust

A2 = Edition.A2
TWICE = named_figure("fault_current", "three phases, times the single-phase figure", A2)
COEFFICIENT = named_figure("resistance_coefficients", "simplified", A2)
REFERENCE = named_figure("resistance_coefficients", "reference temperature", A2)
BONDING = [
    named_figure("main_bonding_not_pme", name, A2)
    for name in ("share of the earthing conductor", "at least", "need not exceed")
]
ANY = st.one_of(
    st.decimals(allow_nan=True, allow_infinity=True),
    st.decimals(allow_nan=False, allow_infinity=False, min_value=-10, max_value=100_000, places=4),
    st.sampled_from(
        [Decimal(text) for text in ("0", "-0", "1E+999999", "1E-999999", "sNaN", "-Infinity", "1000000000")]
    ),
)
USUAL = st.decimals(min_value=Decimal("0.01"), max_value=Decimal(10_000), places=2)


def rating(ca: Decimal, cg: Decimal) -> Working | None:
    flat_cable = Limit(value=Decimal(27), unit="A", source=Source(standard="a table", trust=Trust.PUBLISHED))
    return cable_rating(flat_cable, {"Ca": ca, "Cg": cg})


def at(r20: Decimal, temperature: Decimal) -> Working | None:
    return at_temperature(r20, temperature, COEFFICIENT, REFERENCE)


def bonding(earthing: Decimal) -> Working | None:
    return half_the_earthing_conductor(earthing, *BONDING)


def doubled(u0: Decimal, z: Decimal) -> Working | None:
    return three_phase_doubled(u0, z, TWICE)


Formula = Callable[..., Working | None]
RISES, FALLS = 1, -1
FORMULAS: dict[str, tuple[Formula, tuple[int, ...]]] = {
    "adiabatic size by current, time and k": (least_csa, (RISES, RISES, FALLS)),
    "voltage drop by figure, current and length": (voltage_drop, (RISES, RISES, RISES)),
    "cable rating by its factors": (rating, (RISES, RISES)),
    "resistance by resistance and temperature": (at, (RISES, RISES)),
    "resistance by resistance and factor": (with_factor, (RISES, RISES)),
    "bonding by the earthing conductor": (bonding, (RISES,)),
    "three phases doubled, by voltage and loop": (doubled, (RISES, FALLS)),
    "three phases balanced, by voltage and loop": (three_phase_balanced, (RISES, FALLS)),
    "highest RA by touch voltage and residual current": (highest_ra, (RISES, FALLS)),
}
EACH = pytest.mark.parametrize(("formula", "ways"), FORMULAS.values(), ids=FORMULAS)


@EACH
@given(data=st.data())
def test_a_formula_answers_or_says_nothing_and_never_fails(
    formula: Formula, ways: tuple[int, ...], data: st.DataObject
) -> None:
    worked = formula(*(data.draw(ANY) for _ in ways))
    assert worked is None or (worked.value.is_finite() and worked.value >= 0 and worked.sum)


@EACH
@given(data=st.data())
def test_a_formula_rises_or_falls_with_each_of_its_figures(
    formula: Formula, ways: tuple[int, ...], data: st.DataObject
) -> None:
    figures = [data.draw(USUAL) for _ in ways]
    place = data.draw(st.sampled_from(range(len(ways))))
    raised = [*figures]
    raised[place] += data.draw(USUAL)
    before, after = formula(*figures), formula(*raised)
    if before and after:
        assert (after.value - before.value) * ways[place] >= 0


@EACH
def test_usual_figures_have_an_answer(formula: Formula, ways: tuple[int, ...]) -> None:
    assert formula(*(Decimal(30) for _ in ways))


@given(current=USUAL, time=USUAL, k=USUAL)
def test_the_next_size_carries_the_fault_and_the_size_below_does_not(
    current: Decimal, time: Decimal, k: Decimal
) -> None:
    sizes = sizes_as_made(A2)
    size = next_size(sizes, current, time, k)
    if size is None:
        assert not carries(sizes[-1], current, time, k)
        return
    assert carries(size, current, time, k)
    assert not any(carries(smaller, current, time, k) for smaller in sizes if smaller < size)


@pytest.mark.parametrize(
    ("csa", "size"), [("0.1", "1"), ("1", "1"), ("1.01", "1.5"), ("8", "10"), ("17.5", "25"), ("630", "630")]
)
def test_the_next_size_made_is_no_smaller(csa: str, size: str) -> None:
    assert size_not_under(Decimal(csa), A2) == Decimal(size)


def test_no_conductor_is_made_thicker_than_the_thickest() -> None:
    assert size_not_under(Decimal(631), A2) is None


@pytest.mark.parametrize(
    ("value", "up", "cut"),
    [("2.185", "2.19", "2.18"), ("2.175", "2.18", "2.17"), ("-2.185", "-2.19", "-2.18"), ("0.004", "0.00", "0.00")],
)
def test_a_tie_is_printed_away_from_nought_and_a_limit_for_a_reading_is_cut(value: str, up: str, cut: str) -> None:
    assert str(half_up(Decimal(value), 2)).lstrip("-") == up.lstrip("-")
    assert half_up(Decimal(value), 2) == Decimal(up)
    assert down(Decimal(value), 2) == Decimal(cut)


@given(st.decimals(min_value=0, max_value=10**30, places=6))
def test_rounding_down_is_never_above_and_half_up_never_far(value: Decimal) -> None:
    assert down(value, 2) <= value
    assert abs(half_up(value, 2) - value) <= Decimal("0.005")
