import pytest

from tests.domain.checks.jobs import RCD_30, found, job, verdict


@pytest.mark.parametrize(
    ("standard", "kind", "time", "expected"),
    [
        ("BS EN 61008", "A", "300", "passes"),
        ("BS EN 61008", "A", "301", "fails"),
        ("BS EN 61009", "AC", "24.6", "passes"),
        ("BS EN 61009", "A", ">300", "fails"),
        ("BS EN 61009", "A", ">299", "fails"),
        ("BS EN 61009", "A", "999", "fails"),
        ("BS EN 61009", "A", "0", "ask"),
        ("BS EN 62423", "B", "300", "passes"),
        ("BS EN 62423", "F", "301", "fails"),
        ("BS EN 61008", "S", "129", "fails"),
        ("BS EN 61008", "A S", "130", "passes"),
        ("BS EN 61008", "AC-S", "500", "passes"),
        ("BS EN 61008", "S", "501", "fails"),
        ("BS EN 61008", "S", "<130", "fails"),
        ("BS 4293", "AC", "200", "passes"),
        ("BS 4293", "AC", "201", "fails"),
        ("BS 4293", "S", "250", "note"),
        ("BS 7288", "A", "200", "passes"),
        ("BS 7288", "A", "201", "fails"),
        ("BS 9999", "A", "20", "note"),
        ("BS EN 61008", "A", "", "passes"),
        ("BS EN 61008", "A", "LIM", "passes"),
    ],
)
def test_an_rcd_opens_within_the_time_of_its_standard_and_type(
    standard: str, kind: str, time: str, expected: str
) -> None:
    circuit = RCD_30 | {"rcd_standard": standard, "rcd_type": kind, "rcd_time": time}
    assert verdict(job(circuit), "rcd_time") == expected


def test_a_time_without_an_rcd_is_asked_about() -> None:
    assert verdict(job({"rcd_standard": "N/A", "rcd_time": "24"}), "rcd_time") == "ask"


def test_an_rcd_main_switch_is_judged_and_lends_its_type_to_circuits_without_their_own() -> None:
    switch = {"standard": "BS EN 61008", "rcd_type": "S", "rcd_idn": "100", "rcd_time": "120"}
    made = job({"rcd_standard": "N/A", "rcd_time": "150"}, main_switch=switch)
    (finding,) = found(made, "rcd_time")
    assert finding.place.section == "main_switch"
    assert finding.severity == "fails"


def test_the_sentence_names_time_limit_and_kind_of_rcd() -> None:
    (finding,) = found(job(RCD_30 | {"rcd_time": "312"}), "rcd_time")
    assert finding.says == (
        "312 ms is over 300 ms, the longest for a general type RCD to BS EN 61009 at its rated residual current. "
        "Repeat with loads off, or replace it"
    )


@pytest.mark.parametrize(("time", "meant"), [("0.024", "24"), ("2.4", "24"), ("0.24", "240")])
def test_a_time_no_rcd_can_do_is_asked_about_with_what_was_meant(time: str, meant: str) -> None:
    (finding,) = found(job(RCD_30 | {"rcd_time": time}), "rcd_time")
    assert finding.severity == "ask"
    assert finding.says.endswith(f"Did you mean {meant} ms?")
    assert verdict(job(RCD_30 | {"rcd_time": "3"}), "rcd_time") == "passes"
