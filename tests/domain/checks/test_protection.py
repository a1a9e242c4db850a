"""RCDs where rules ask for them, their types, arc fault and surge protection."""

import pytest

from tests.domain.checks.jobs import RCD_30, RING, found, job, verdict

HOME = {"premises": {"use": "domestic"}}


@pytest.mark.parametrize(
    ("description", "rating", "home", "expected"),
    [
        ("Sockets", "32", False, "ask"),
        ("Sockets", "40", False, "passes"),
        ("socket-outlets, bench", "16", False, "ask"),
        ("Garden power", "16", False, "ask"),
        ("Shower", "40", False, "ask"),
        ("Bathroom fan", "6", False, "ask"),
        ("Bath Road lighting", "6", False, "passes"),
        ("Car charger", "32", False, "ask"),
        ("Underfloor heating", "16", False, "ask"),
        ("Lights", "6", False, "passes"),
        ("Lights", "6", True, "ask"),
        ("Landing lights", "6", True, "ask"),
        ("Immersion heater", "16", True, "passes"),
        ("Cooker", "32", True, "passes"),
        ("SELV bathroom lights", "6", True, "passes"),
        ("Submain to garage", "32", True, "passes"),
    ],
)
def test_a_circuit_needs_an_rcd_by_what_it_feeds(description: str, rating: str, home: bool, expected: str) -> None:
    made = job({"description": description, "rating": rating}, **(HOME if home else {}))
    assert verdict(made, "rcd_standard", check="additional-protection") == expected


@pytest.mark.parametrize(
    ("use", "expected"),
    [("domestic", "ask"), ("rented flat", "ask"), ("Public house", "passes"), ("care home", "passes"), ("", "passes")],
)
def test_lights_need_an_rcd_where_a_household_lives(use: str, expected: str) -> None:
    assert verdict(job({"description": "Lights"}, premises={"use": use}), "rcd_standard") == expected


def test_a_ring_feeds_sockets_unless_it_says_otherwise() -> None:
    assert verdict(job(RING | {"description": "Ground floor"}), "rcd_standard") == "ask"
    assert verdict(job(RING | {"description": "Storage heaters"}), "rcd_standard") == "passes"


@pytest.mark.parametrize(
    ("changes", "box", "expected"),
    [
        (RCD_30, "rcd_idn", "passes"),
        (RCD_30 | {"rcd_idn": "31"}, "rcd_idn", "ask"),
        (RCD_30 | {"rcd_idn": "100"}, "rcd_idn", "ask"),
        (RCD_30 | {"rcd_idn": "10"}, "rcd_idn", "passes"),
        (RCD_30 | {"rcd_idn": ""}, "rcd_idn", "passes"),
        (RCD_30 | {"rcd_type": "A S"}, "rcd_idn", "ask"),
        ({"rcd_standard": ""}, "rcd_standard", "passes"),
        ({"rcd_standard": "none"}, "rcd_standard", "ask"),
    ],
)
def test_the_rcd_is_sensitive_enough_and_not_delayed(changes: dict[str, str], box: str, expected: str) -> None:
    made = job({"description": "Sockets"} | changes)
    assert verdict(made, box, check="additional-protection") == expected


@pytest.mark.parametrize(("switch", "expected"), [("30", "passes"), ("100", "ask"), ("", "passes")])
def test_an_rcd_main_switch_may_do_it(switch: str, expected: str) -> None:
    made = job({"description": "Sockets"}, main_switch={"rcd_type": "A", "rcd_idn": switch})
    assert verdict(made, "rcd_standard", check="additional-protection") == expected


def test_the_rcd_of_the_way_that_feeds_the_board_may_do_it() -> None:
    sockets = {
        "id": "c50",
        "number": "1",
        "description": "Sockets",
        "shape": "radial",
        "rating": "20",
        "rcd_standard": "N/A",
    }
    sub = {"id": "b2", "designation": "DB2", "supplied_from": "DB1 / 1", "circuits": [sockets]}
    for feeding, expected in [(RCD_30, "passes"), ({}, "ask"), (RCD_30 | {"rcd_idn": "100"}, "ask")]:
        made = job({"description": "Submain to DB2"} | feeding, more_boards=[sub])
        assert verdict(made, "rcd_standard", check="additional-protection") == expected


@pytest.mark.parametrize(
    ("use", "exceptions", "expected"),
    [
        ("commercial", "None", "ask"),
        ("commercial", "", "ask"),
        ("commercial", "Freezer socket, see the risk assessment", "note"),
        ("domestic", "Freezer socket, see the risk assessment", "ask"),
    ],
)
def test_sockets_may_be_excepted_outside_dwellings_only(use: str, exceptions: str, expected: str) -> None:
    made = job({"description": "Sockets"}, premises={"use": use}, work={"exceptions": exceptions})
    assert verdict(made, "rcd_standard", check="additional-protection") == expected


def test_on_a_report_a_missing_rcd_is_a_note() -> None:
    made = job({"description": "Sockets"}, form_set="EICR")
    assert verdict(made, "rcd_standard", check="additional-protection") == "note"


@pytest.mark.parametrize(
    ("changes", "form_set", "expected"),
    [
        ({"rcd_type": "AC", "description": "Sockets"}, "EIC", "ask"),
        ({"rcd_type": "AC-S", "description": "Lights"}, "EIC", "ask"),
        ({"rcd_type": "AC", "description": "Sockets"}, "EICR", "note"),
        ({"rcd_type": "AC", "description": "Sockets"}, "MEIWC", "note"),
        ({"rcd_type": "AC", "description": "Sockets", "rcd_standard": "BS EN 61008"}, "EIC", "note"),
        ({"rcd_type": "AC"}, "EIC", "note"),
        ({"rcd_type": "A", "description": "Sockets"}, "EIC", "passes"),
        ({"rcd_type": "AC", "description": "EV charge point"}, "EIC", "ask"),
        ({"rcd_type": "A", "description": "EV charge point"}, "EIC", "note"),
        ({"rcd_type": "B", "description": "EV charge point"}, "EIC", "passes"),
    ],
)
def test_the_type_suits_what_the_circuit_feeds(changes: dict[str, str], form_set: str, expected: str) -> None:
    assert verdict(job(RCD_30 | changes, form_set=form_set), "rcd_type", check="rcd-kind") == expected


def test_older_rcds_of_type_ac_are_noted_once_for_a_board() -> None:
    made = job(*[RCD_30 | {"rcd_type": "AC"}] * 3, form_set="EICR")
    (finding,) = found(made, "rcd_type", check="rcd-kind")
    assert "On DB1 circuits 1, 2 and 3 have RCDs of type AC" in finding.says


@pytest.mark.parametrize(
    ("use", "rating", "button", "expected"),
    [
        ("HMO", "32", "N/A", "ask"),
        ("care home", "20", "N/A", "ask"),
        ("HMO", "40", "N/A", "passes"),
        ("HMO", "32", "y", "passes"),
        ("domestic", "32", "N/A", "passes"),
    ],
)
def test_arc_fault_detection_is_asked_about_in_the_premises_named(
    use: str, rating: str, button: str, expected: str
) -> None:
    sockets = RCD_30 | {"description": "Sockets", "rating": rating, "afdd_button": button}
    assert verdict(job(sockets, premises={"use": use}), "afdd_button") == expected


@pytest.mark.parametrize(
    ("kind", "spd", "form_set", "expected"),
    [
        ("new", "N/A", "EIC", "note"),
        ("a replaced consumer unit", "N/A", "EIC", "note"),
        ("an addition and a replaced consumer unit", "N/A", "EIC", "note"),
        ("an addition", "N/A", "EIC", "passes"),
        ("new", "T2", "EIC", "passes"),
        ("new", "", "EIC", "passes"),
        ("new", "N/A", "EICR", "passes"),
    ],
)
def test_no_surge_protection_in_new_boards_is_noted(kind: str, spd: str, form_set: str, expected: str) -> None:
    made = job(work={"kind": kind}, board={"spd_type": spd}, form_set=form_set)
    assert verdict(made, "spd_type") == expected


@pytest.mark.parametrize(
    ("switch", "expected"),
    [({}, "ask"), ({"rcd_type": "A S", "rcd_idn": "300"}, "passes"), ({"rcd_type": "A", "rcd_idn": "500"}, "ask")],
)
def test_every_circuit_of_a_farm_has_an_rcd_of_some_kind(switch: dict[str, str], expected: str) -> None:
    made = job({}, premises={"use": "agricultural"}, main_switch=switch)
    assert verdict(made, "rcd_standard", check="additional-protection") == expected
