"""What other general-purpose libraries made of the same circuits, written down once; each names how it was made.

They are not development dependencies: pandapower takes 405 MB and a minute to install, electricpy 428 MB.
"""

from decimal import Decimal

import pytest

from domain.figures.asked.answer import FigureAnswer
from domain.figures.asked.catalogue import ask, figure_named

# Source: pandapower 3.5.6, shortcircuit.calc_sc(fault="1ph", lv_tol_percent=6), 230·√3 V, an external grid of Ze (its
# zero sequence the same) and one line of r1 = line, r0 = line + 3 × cpc, from IEC 60228. case="min" takes 0.95 of the
# voltage and the end temperature, case="max" 1.05 of it and 20 °C.
EARTH_FAULTS = [
    ("0.20", "4", "2.5", "20", "70", 447.31, 548.37),
    ("0.35", "2.5", "1.5", "30", "70", 207.63, 258.21),
    ("0.35", "1.5", "1", "45", "70", 110.31, 141.31),
    ("0.80", "6", "2.5", "15", "70", 220.97, 252.26),
    ("0.12", "10", "4", "40", "70", 509.18, 639.57),
    ("0.35", "16", "6", "60", "70", 333.81, 399.97),
    ("0.15", "25", "16", "100", "90", 559.89, 715.13),
    ("0.80", "1", "1", "10", "70", 177.01, 207.83),
    ("0.05", "35", "16", "80", "90", 986.82, 1313.07),
]


def asked(name: str, *words: str) -> FigureAnswer:
    return ask(figure_named(name), words)


def value(answer: FigureAnswer) -> Decimal:
    assert answer.value is not None
    return answer.value


@pytest.mark.parametrize(("ze", "line", "cpc", "metres", "degrees", "least", "most"), EARTH_FAULTS)
def test_the_earth_fault_at_the_end_of_a_run_is_that_of_a_network_solver(
    ze: str, line: str, cpc: str, metres: str, degrees: str, least: float, most: float
) -> None:
    run = (f"line={line}", f"cpc={cpc}", f"length={metres}")
    for volts, warmth, current in ((Decimal("0.95"), degrees, least), (Decimal("1.05"), "20", most)):
        r1r2 = value(asked("r1-r2", *run, f"temperature={warmth}"))
        z = value(asked("zs", f"ze={ze}", f"r1r2={r1r2}"))
        amperes = value(asked("fault-current", f"u0={230 * volts}", f"z={z}"))
        assert float(amperes) == pytest.approx(current, rel=5e-4)


# Source: pandapower 3.5.6, calc_sc(fault="3ph") at the nominal voltage behind an impedance in each line. With a neutral
# as thick as a line the loop of one line and neutral is twice that impedance; with a thicker one it is less.
@pytest.mark.parametrize(("each_line", "current"), [("0.05", 4600.0), ("0.12", 1916.67), ("0.35", 657.14)])
def test_doubling_gives_the_three_phase_fault_where_the_neutral_is_a_line_and_is_never_too_low(
    each_line: str, current: float
) -> None:
    z = Decimal(each_line)
    assert float(value(asked("fault-current", "phases=3", f"z={2 * z}"))) == pytest.approx(current, abs=0.01)
    assert float(value(asked("fault-current", "phases=3", f"z={z + z / 2}"))) > current


# Source: electricpy 0.3.0, parallelz: impedances in parallel.
@pytest.mark.parametrize(
    ("readings", "together"),
    [
        ("40,10,8", 4.0),
        ("50,100,50,25", 11.11111111111111),
        ("200,200", 100.0),
        ("999,0.5", 0.4997498749374687),
        ("2.2,3.3,4.7,6.8", 0.8949342384386932),
        ("20,15,12.5,300,7.2", 2.9508196721311477),
    ],
)
def test_circuits_tested_together_read_what_an_electrical_library_gives(readings: str, together: float) -> None:
    assert float(value(asked("insulation", f"parallel={readings}"))) == pytest.approx(together, abs=0.0005)


# Source: Pint 0.25.3, quantities with their units: mΩ/m × m, mV/A/m × A × m, V / mA and A·√s / (A·√s/mm²), each to its
# unit; a slip between milliohms and ohms, or mA and A, would show as a thousandfold.
@pytest.mark.parametrize(
    ("line", "quantity"),
    [
        ("r1-r2 line=6 cpc=2.5 length=18", 0.18882),
        ("r1-r2 line=1 cpc=1 length=27.5", 0.9955),
        ("volt-drop mv-per-a-m=7.3 current=32 length=30", 7.008),
        ("volt-drop mv-per-a-m=0.87 current=125 length=85", 9.24375),
        ("ra-max idn=30", 1666.6666666666667),
        ("adiabatic current=1200 time=0.1 k=115", 3.299767993219178),
    ],
)
def test_no_unit_is_a_thousandfold_out(line: str, quantity: float) -> None:
    name, *words = line.split()
    assert float(value(asked(name, *words))) == pytest.approx(quantity, rel=1e-3)
