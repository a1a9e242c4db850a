"""What a circuit should read, with the sums written out."""

from decimal import Decimal

from domain.checks.shared.circuits_in_use import ways_in_use
from domain.checks.shared.expected import Expected, expected_of
from tests.domain.checks.jobs import RING, job


def expected(circuit: dict[str, str], **sections: dict[str, str]) -> Expected:
    made = job(circuit, **sections)
    (way,) = ways_in_use(made)
    return expected_of(made, way)


def test_a_radial_with_everything_known() -> None:
    found = expected({"length": "20", "r1_r2": ""})
    assert found.r1_r2
    assert found.zs
    assert found.fault_current
    assert found.volt_drop
    assert found.r1_r2.sum == "(7.41 + 12.1) mΩ/m × 20 m = 0.3902 Ω"
    assert found.zs.value == Decimal("0.7102")
    assert found.fault_current.sum == "230 V / 0.71020 Ω = 323.85 A"
    assert found.volt_drop.value == Decimal("5.76")
    assert found.volt_drop.source
    assert found.r1_r2.source


def test_a_measured_r1_r2_stands_before_the_one_worked_out() -> None:
    found = expected({"length": "20", "r1_r2": "0.36"})
    assert found.zs
    assert found.zs.sum == "0.32 Ω + 0.36 Ω = 0.68 Ω"


def test_a_ring_is_a_quarter_of_both_ends() -> None:
    found = expected(RING | {"length": "80", "r1_r2": ""})
    assert found.r1_r2
    assert found.r1_r2.value == Decimal("0.3902")
    assert found.volt_drop
    assert found.volt_drop.sum == "18 mV/A/m × 26 A × 20 m / 1000 = 9.36 V"


def test_what_is_not_known_is_not_worked_out() -> None:
    nothing = expected({"length": "", "r1_r2": ""}, board={"zs": "LIM"}, supply={"ze": "LIM"})
    assert nothing == Expected(None, None, None, None)
    odd = expected({"length": "20", "live_csa": "2.4", "r1_r2": "", "wiring": "O"})
    assert odd == Expected(None, None, None, None)
    assert expected({"length": "20", "r1_r2": "0"}, board={"zs": "-0.5"}).fault_current is None
