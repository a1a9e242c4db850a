import pytest

from tests.domain.checks.jobs import found, job, verdict


@pytest.mark.parametrize("box", ["ir_live", "ir_earth"])
@pytest.mark.parametrize(
    ("voltage", "reading", "expected"),
    [
        ("500", "0.99", "fails"),
        ("500", "1.00", "ask"),
        ("500", "1.99", "ask"),
        ("500", "2", "passes"),
        ("500", ">999", "passes"),
        ("500", ">200", "passes"),
        ("500", ">0.5", "ask"),
        ("500", "<1", "fails"),
        ("500", "<2", "ask"),
        ("500", "0.00", "fails"),
        ("500", "-1", "fails"),
        ("1000", "0.99", "fails"),
        ("1000", "1", "ask"),
        ("250", "0.49", "fails"),
        ("250", "0.50", "fails"),
        ("250", "0.99", "fails"),
        ("250", "1.00", "ask"),
        ("250", "2.00", "passes"),
        ("", "0.49", "fails"),
        ("", "50", "passes"),
        ("500", "", "passes"),
        ("500", "LIM", "passes"),
        ("500", "N/V", "passes"),
        ("500", "infinity", "passes"),
    ],
)
def test_insulation_is_held_against_the_minimum_for_its_test_voltage(
    box: str, voltage: str, reading: str, expected: str
) -> None:
    assert verdict(job({"test_voltage": voltage, box: reading}), box, check="insulation") == expected


def test_a_circuit_said_to_be_selv_or_pelv_has_the_minimum_of_its_own_and_one_only_called_so_has_not() -> None:
    said = {"test_voltage": "250", "ir_earth": "0.6", "feeds": "SELV or PELV"}
    assert verdict(job(said), "ir_earth", check="insulation") == "passes"
    assert verdict(job(said | {"ir_earth": "0.49"}), "ir_earth", check="insulation") == "fails"
    called = {"test_voltage": "250", "ir_earth": "0.6", "description": "SELV lights"}
    assert verdict(job(called), "ir_earth", check="insulation") == "fails"


@pytest.mark.parametrize("voltage", ["400", "50", "5000", "250.5"])
def test_a_test_voltage_outside_the_table_is_asked_about_and_judges_no_reading(voltage: str) -> None:
    made = job({"test_voltage": voltage, "ir_earth": "0.2"})
    assert verdict(made, "test_voltage") == "ask"
    assert verdict(made, "ir_earth") == "passes"


def test_the_sentence_names_the_minimum_and_the_test_voltage() -> None:
    (finding,) = found(job({"ir_earth": "0.4"}), "ir_earth")
    assert finding.says.startswith("0.4 MΩ is under 1.0 MΩ, the least for a circuit tested at 500 V. Repeat ")
    assert finding.source
    assert finding.source.cited == "BS 7671:2018+A2:2022, Table 64; 643.3"


def test_a_low_reading_that_passes_is_looked_into_by_common_practice() -> None:
    (finding,) = found(job({"ir_earth": "1.5"}), "ir_earth")
    assert "common practice" in finding.says
