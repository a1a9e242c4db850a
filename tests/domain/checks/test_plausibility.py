import pytest

from domain.checks import findings_of
from domain.job.circuit import RESULT_BOXES
from tests.domain.checks.jobs import RCD_30, RING, found, job, verdict


@pytest.mark.parametrize("box", ["r1_r2", "r2"])
def test_an_open_conductor_fails_and_a_negative_one_is_asked_about(box: str) -> None:
    assert verdict(job({box: ">1999"}), box, check="continuity") == "fails"
    assert verdict(job({box: "-0.02"}), box, check="continuity") == "ask"
    assert verdict(job({box: "0.00"}), box, check="continuity") == "passes"


@pytest.mark.parametrize("box", ["ring_r1", "ring_rn", "ring_r2"])
def test_an_open_ring_fails(box: str) -> None:
    assert verdict(job(RING | {box: ">99"}), box, check="continuity") == "fails"


@pytest.mark.parametrize(("zs", "expected"), [("0.33", "passes"), ("0.32", "passes"), ("0.31", "ask"), ("-0.4", "ask")])
def test_zs_below_the_impedance_at_the_board_is_asked_about(zs: str, expected: str) -> None:
    assert verdict(job({"zs": zs}), "zs", check="external-impedance") == expected


def test_ze_stands_in_for_the_board_at_the_origin_only() -> None:
    assert verdict(job({"zs": "0.29"}, board={"zs": ""}), "zs", check="external-impedance") == "ask"
    assert verdict(job({"zs": "0.30"}, board={"zs": ""}), "zs", check="external-impedance") == "passes"
    first = {"id": "b9", "designation": "DB0", "supplied_from": "origin", "circuits": []}
    away = job({"zs": "0.29"}, board={"zs": "", "supplied_from": "DB0 / 2"}, more_boards=[first])
    assert verdict(away, "zs", check="external-impedance") == "passes"


@pytest.mark.parametrize(
    ("system", "ze", "expected"),
    [
        ("TN-C-S", "0.35", "passes"),
        ("TN-C-S", "0.36", "ask"),
        ("TN-S", "0.80", "passes"),
        ("TN-S", "0.81", "ask"),
        ("TN-S", "80", "ask"),
        ("TT", "0.30", "ask"),
        ("TT", "0.80", "ask"),
        ("TT", "0.81", "passes"),
        ("TT", "85", "passes"),
        ("TT", "LIM", "passes"),
        ("", "85", "passes"),
        ("TN-S", "-0.2", "ask"),
    ],
)
def test_ze_suits_the_declared_system(system: str, ze: str, expected: str) -> None:
    assert verdict(job(supply={"system": system, "ze": ze}), "ze") == expected


def test_a_tt_circuit_with_the_zs_of_a_cable_earth_is_asked_about() -> None:
    made = job(RCD_30 | {"zs": "0.30"}, supply={"system": "TT", "ze": ""}, board={"zs": ""})
    assert verdict(made, "zs") == "ask"


@pytest.mark.parametrize(
    ("ipf", "ze", "expected"),
    [
        ("0.77", "0.30", "passes"),
        ("0.8", "0.30", "passes"),
        ("1.1", "0.30", "passes"),
        ("1.3", "0.30", "ask"),
        ("0.60", "0.30", "passes"),
        ("0.55", "0.30", "ask"),
        ("7.7", "0.30", "ask"),
        ("0.08", "0.30", "ask"),
        ("LIM", "0.30", "passes"),
        ("0.8", "", "passes"),
        ("4.2", "0.06", "passes"),
        ("20", "0.01", "passes"),
    ],
)
def test_ipf_at_the_origin_fits_ze(ipf: str, ze: str, expected: str) -> None:
    made = job(supply={"ipf": ipf, "ze": ze}, board={"ipf": "", "zs": ""})
    assert verdict(made, "ipf", check="fault-current") == expected


@pytest.mark.parametrize(
    ("phases", "ipf", "expected"), [("1", "3.9", "ask"), ("3", "3.9", "passes"), ("3", "7.8", "ask")]
)
def test_on_three_phases_ipf_may_be_twice_as_far_above(phases: str, ipf: str, expected: str) -> None:
    made = job(supply={"ipf": ""}, board={"ipf": ipf, "zs": "0.32", "phases": phases})
    assert verdict(made, "ipf", check="fault-current") == expected


def test_declared_values_are_the_distributors_and_need_not_fit() -> None:
    declared = {"ipf": "16", "ipf_by": "enquiry", "ze": "0.35", "ze_by": "enquiry"}
    assert verdict(job(supply=declared, board={"ipf": "", "zs": ""}), "ipf") == "passes"


def test_on_tt_the_electrode_bounds_ipf_from_below_only() -> None:
    made = job(supply={"system": "TT", "ze": "85", "ipf": "1.2"}, board={"ipf": "1.2", "zs": "85"})
    assert verdict(made, "ipf") == "passes"


def test_ipf_and_zdb_of_a_board_are_compared_too() -> None:
    (finding,) = found(job(board={"ipf": "0.08", "zs": "0.32"}), "ipf")
    assert finding.place.board == "b1"
    assert "at least about 0.72 kA is expected (230 V / 0.32 Ω = 718.75 A)" in finding.says


def test_a_spare_way_with_results_is_asked_about_once() -> None:
    spare = {"description": "Spare", "shape": "spare", "zs": "9.99", "polarity": "n"}
    assert [(each.check, each.severity) for each in findings_of(job(spare))] == [("contradiction", "ask")]


def test_a_spare_way_without_results_is_left_alone() -> None:
    assert findings_of(job({}, dict.fromkeys(RESULT_BOXES, "") | {"shape": "Spare"})) == ()


@pytest.mark.parametrize("box", ["zs", "ir_earth", "polarity"])
def test_na_against_what_every_circuit_has_is_a_finding(box: str) -> None:
    assert verdict(job({box: "N/A"}), box) == "ask"


def test_na_against_what_a_ring_or_an_rcd_has_is_a_finding() -> None:
    assert verdict(job(RING | {"ring_r2": "n/a"}), "ring_r2") == "ask"
    assert verdict(job(RCD_30 | {"rcd_time": "n/a"}), "rcd_time") == "ask"
    assert verdict(job({"rcd_time": "n/a"}), "rcd_time") == "passes"


@pytest.mark.parametrize("mark", ["LIM", "N/V"])
def test_a_limitation_is_never_a_finding(mark: str) -> None:
    boxes = ("r1_r2", "r2", "ir_live", "ir_earth", "polarity", "zs", "rcd_time", "rcd_button", "ring_r1", "ring_rn")
    made = job(RING | RCD_30 | dict.fromkeys(boxes, mark), form_set="EICR")
    assert [verdict(made, box) for box in boxes] == ["passes"] * len(boxes)
