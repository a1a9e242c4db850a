"""Worked examples from outside, asked for as a person types them; the source stands beside each."""

import math
from decimal import Decimal

import pytest

from domain.figures.asked.answer import FigureAnswer
from domain.figures.asked.catalogue import ask, figure_named


def asked(line: str) -> FigureAnswer:
    name, *words = line.split(" / ")
    return ask(figure_named(name), words)


def close(answer: FigureAnswer, to: float, within: float) -> bool:
    assert answer.value is not None
    return math.isclose(float(answer.value), to, abs_tol=within)


# Source: the minimum case of IEC 60909-0, c = 0.95 and R × (1 + 0.004 × (70 - 20)), for an earth fault at the end of
# a run of 4 mm² with a 2.5 mm² cpc behind a source of 0.20 Ω. A network solver gives 447.31 A for 20 m.
@pytest.mark.parametrize("metres", [1, 5, 20, 60])
def test_zs_and_fault_current_are_those_of_the_international_minimum_case(metres: int) -> None:
    loop = 0.20 + (4.61 + 7.41) / 1000 * metres * (1 + 0.004 * (70 - 20))
    r1r2 = asked(f"r1-r2 / line=4 / cpc=2.5 / length={metres} / temperature=70").value
    zs = asked(f"zs / ze=0.20 / r1r2={r1r2}").value
    assert zs is not None
    assert math.isclose(float(zs), loop, abs_tol=0.0001)
    amperes = asked(f"fault-current / u0={Decimal(230) * Decimal('0.95')} / z={zs}")
    assert close(amperes, 0.95 * 230 / loop, 0.2)
    if metres == 20:
        assert close(amperes, 447.31, 0.1)


# Source: the same run at 20 °C, where a network solver gives 548.37 A with c = 1.05.
def test_the_highest_fault_current_is_that_of_the_cold_run() -> None:
    zs = asked(f"zs / ze=0.20 / r1r2={asked('r1-r2 / line=4 / cpc=2.5 / length=20').value}")
    assert close(asked(f"fault-current / u0=241.5 / z={zs.value}"), 548.37, 0.01)


# Source: S = √(I² × t) / k of IEC 60364-5-54, worked with binary floating point.
@pytest.mark.parametrize(
    ("amperes", "seconds", "k"), [(1200, 0.1, 115), (460, 0.4, 115), (160, 5, 143), (2300, 0.2, 51)]
)
def test_the_adiabatic_size_is_that_of_the_equation(amperes: float, seconds: float, k: float) -> None:
    answer = asked(f"adiabatic / current={amperes} / time={seconds} / k={k}")
    assert close(answer, math.sqrt(amperes**2 * seconds) / k, 0.006)


# Source: IEC 60364-5-54, Annex A: k = 226 × √(ln((234.5 + 160) / (234.5 + 70))) for copper in 70 °C insulation.
def test_the_adiabatic_size_by_material_uses_the_k_of_the_formula() -> None:
    k = 226 * math.sqrt(math.log((234.5 + 160) / (234.5 + 70)))
    answer = asked("adiabatic / u0=230 / zs=0.5 / time=0.4 / material=copper / insulation=70 °C thermoplastic")
    assert close(answer, 460 * math.sqrt(0.4) / k, 0.006)


# Source: IEC 60228 temperature correction: a conductor at 70 °C has 1 / 0.833 of its resistance at 20 °C.
def test_a_conductor_at_70_degrees_has_a_fifth_more_resistance() -> None:
    assert close(asked("resistance-at / r20=1 / temperature=70"), 1 / 0.833, 0.001)


# Source: IEC 60228: copper has 0.00393 per kelvin, or 254.5 / 234.5 from 20 °C to 40 °C.
def test_the_exact_coefficient_of_copper_agrees_with_its_inferred_zero() -> None:
    assert close(asked("resistance-at / r20=1 / temperature=40 / alpha=0.00393"), 1 + 20 / 254.5, 0.0001)


# Source: (3.08 + 7.41) mΩ/m × 18 m = 0.1888 Ω, worked with units by an independent units library.
def test_r1_and_r2_of_a_shower_circuit() -> None:
    assert close(asked("r1-r2 / line=6 / cpc=2.5 / length=18"), 0.1888, 0.0001)


# Source: 1/40 + 1/10 + 1/8 = 1/4, also given by an independent electrical engineering library.
def test_circuits_tested_together_read_four_megohms() -> None:
    assert asked("insulation / parallel=40,10,8").value == 4


# Source: Linsley, Basic Electrical Installation Work: 3 % of 230 V is 6.9 V, 5 % is 11.5 V.
def test_the_volts_that_lighting_and_other_uses_may_drop() -> None:
    said = " ".join(asked("volt-drop / table=4D5 / csa=2.5 / current=20 / length=25").notes)
    assert "6.9 V" in said
    assert "11.5 V" in said


# Source: 50 V / 30 mA; Table 41.5 prints 1667, which is 50.01 V, and both are accepted in the trade.
def test_an_electrode_with_a_30_ma_rcd() -> None:
    assert asked("ra-max / idn=30").value == 1667
    assert close(asked("ra-max / idn=30 / touch=25"), 25 / 0.030, 0.01)


# Source: √3 × 230 V / 0.23 Ω; the trade doubles the single-phase figure.
def test_a_fault_between_three_phases() -> None:
    answer = asked("fault-current / phases=3 / z=0.23")
    assert answer.value == 2000
    assert any("1732.05 A" in note for note in answer.notes)
    assert math.isclose(math.sqrt(3) * 230 / 0.23, 1732.05, abs_tol=0.01)
