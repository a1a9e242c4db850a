"""Devices, cables, protective conductors and voltage drop: just under, at and over each limit."""

import pytest

from tests.domain.checks.jobs import RCD_30, RING, found, job, verdict

BARE = {"r1_r2": "", "zs": ""}


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({"rating": "25"}, "passes"),
        ({"rating": "32"}, "ask"),
        ({"rating": "20", "method": "A"}, "passes"),
        ({"rating": "25", "method": "A"}, "ask"),
        ({"rating": "20", "method": "100"}, "passes"),
        ({"rating": "20", "method": "Method 101"}, "ask"),
        ({"rating": "25", "wiring": "C", "method": "B"}, "ask"),
        ({"rating": "20", "wiring": "C", "method": "B"}, "passes"),
        ({"rating": "32", "wiring": "H"}, "passes"),
        ({"rating": "25", "wiring": "F", "method": "D"}, "passes"),
        ({"rating": "32", "wiring": "F", "method": "D"}, "ask"),
        ({"rating": "25", "wiring": "G", "method": "D"}, "passes"),
        ({"rating": "32", "wiring": "G", "method": "C"}, "ask"),
        ({"rating": "32", "wiring": "G", "method": "C", "terminals": "90 °C"}, "passes"),
        ({"rating": "32", "wiring": "H", "runs": "bare to touch"}, "ask"),
        ({"rating": "40", "wiring": "G", "method": "D"}, "ask"),
        ({"rating": "32", "method": "", "live_csa": "1.5", "cpc_csa": "1.0"}, "ask"),
        ({"rating": "25", "method": "", "live_csa": "1.5", "cpc_csa": "1.0"}, "passes"),
        ({"rating": "20", "device_standard": "BS 3036", "device_type": "N/A"}, "ask"),
        ({"rating": "15", "device_standard": "BS 3036", "device_type": "N/A"}, "passes"),
    ],
)
def test_no_device_is_rated_over_what_its_cable_carries(changes: dict[str, str], expected: str) -> None:
    assert verdict(job(BARE | changes), "rating", check="overload") == expected


def test_a_rewireable_fuse_over_its_factor_is_a_note_on_a_report() -> None:
    fuse = BARE | {"rating": "20", "device_standard": "BS 3036", "device_type": "N/A"}
    (finding,) = found(job(fuse, form_set="EICR"), "rating", check="overload")
    assert finding.severity == "note"
    assert "It × Cf = 27 A × 0.725 = 19.58 A" in finding.says


@pytest.mark.parametrize(
    ("changes", "box", "expected"),
    [
        ({"rating": "32"}, "rating", "passes"),
        ({"rating": "40"}, "rating", "ask"),
        ({"live_csa": "1.5"}, "live_csa", "ask"),
        ({"live_csa": "1.5", "wiring": "H"}, "live_csa", "passes"),
        ({"method": "100"}, "method", "passes"),
        ({"method": "103"}, "method", "ask"),
    ],
)
def test_a_ring_has_rules_of_its_own(changes: dict[str, str], box: str, expected: str) -> None:
    assert verdict(job(RING | RCD_30 | changes), box, check="overload") == expected


@pytest.mark.parametrize(
    ("changes", "box", "expected"),
    [
        ({"live_csa": "2.4"}, "live_csa", "ask"),
        ({"live_csa": "2.50"}, "live_csa", "passes"),
        ({"cpc_csa": "0.75"}, "cpc_csa", "passes"),
        ({"rating": "30"}, "rating", "ask"),
        ({"rating": "7"}, "rating", "ask"),
        ({"rating": "6"}, "rating", "passes"),
        ({"device_standard": "BS EN 60947-2", "rating": "70"}, "rating", "passes"),
        ({"device_standard": "BS 88-3", "device_type": "gG", "rating": "32"}, "rating", "passes"),
        ({"device_standard": "BS 88-3", "device_type": "gG", "rating": "30"}, "rating", "ask"),
        ({"device_standard": "BS 3036", "device_type": "N/A", "rating": "30"}, "rating", "passes"),
        ({"device_type": "gG"}, "device_type", "ask"),
        ({"device_type": "type b"}, "device_type", "passes"),
        ({"device_standard": "BS 88-3", "device_type": "B"}, "device_type", "ask"),
        (RCD_30 | {"rcd_idn": "0.03"}, "rcd_idn", "ask"),
        (RCD_30, "rcd_idn", "passes"),
    ],
)
def test_sizes_and_ratings_are_those_that_are_made(changes: dict[str, str], box: str, expected: str) -> None:
    assert verdict(job(changes), box, check="sizes-made") == expected


def test_a_slip_of_one_place_is_offered_and_a_cable_to_inches_is_a_note_on_a_report() -> None:
    (finding,) = found(job({"live_csa": "25", "cpc_csa": "15"}), "cpc_csa", check="sizes-made")
    assert finding.says.endswith("Did you mean 1.5 mm²?")
    assert verdict(job({"live_csa": "2.9"}, form_set="EICR"), "live_csa", check="sizes-made") == "note"


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({"live_csa": "2.5", "cpc_csa": "1.5", "rating": "32", "zs": "0.33"}, "passes"),
        ({"live_csa": "2.5", "cpc_csa": "2.5"}, "passes"),
        ({"live_csa": "10", "cpc_csa": "1.5", "rating": "40", "zs": "0.35"}, "ask"),
        ({"live_csa": "10", "cpc_csa": "2.5", "rating": "40", "zs": "0.35"}, "passes"),
        ({"live_csa": "25", "cpc_csa": "16", "rating": "80", "zs": "0.33"}, "passes"),
        ({"live_csa": "1.5", "cpc_csa": "2.5"}, "ask"),
        ({"live_csa": "1.5", "cpc_csa": "2.5", "wiring": "B", "method": "B"}, "passes"),
        ({"live_csa": "10", "cpc_csa": "1.5", "wiring": "F"}, "passes"),
        ({"live_csa": "10", "cpc_csa": "1.5", "rating": "40", "zs": ""}, "passes"),
        ({"device_standard": "BS 3036", "device_type": "N/A", "rating": "30", "zs": "0.50"}, "passes"),
        ({"live_csa": "6", "device_standard": "BS 3036", "device_type": "N/A", "rating": "45", "zs": "0.35"}, "ask"),
    ],
)
def test_a_cpc_is_as_large_as_the_table_asks_or_carries_the_fault(changes: dict[str, str], expected: str) -> None:
    assert verdict(job({"r1_r2": ""} | changes), "cpc_csa", check="protective-conductors") == expected


def test_the_adiabatic_sum_stands_in_the_sentence() -> None:
    made = job({"live_csa": "10", "cpc_csa": "1.5", "rating": "40", "zs": "0.40", "r1_r2": ""})
    (finding,) = found(made, "cpc_csa")
    assert "√(575² × 0.1) / 115 = 1.58 mm²" in finding.says
    assert finding.limit == "1.58 mm²"


COPPER = {"conductor_material": "copper", "bonding_material": "copper", "conductor_csa": "16", "bonding_csa": "10"}


@pytest.mark.parametrize(
    ("system", "changes", "box", "expected"),
    [
        ("TN-C-S", {}, "bonding_csa", "passes"),
        ("TN-C-S", {"bonding_csa": "6"}, "bonding_csa", "ask"),
        ("TN-C-S", {"bonding_csa": "6", "bonding_material": "steel"}, "bonding_csa", "ask"),
        ("TN-C-S", {"bonding_csa": "95", "bonding_material": "steel"}, "bonding_csa", "passes"),
        ("TN-C-S", {"bonding_csa": "6", "bonding_material": "brass"}, "bonding_csa", "passes"),
        ("TN-C-S", {"conductor_csa": "6"}, "conductor_csa", "ask"),
        ("TN-S", {"bonding_csa": "6"}, "bonding_csa", "note"),
        ("TN-S", {"bonding_csa": "4"}, "bonding_csa", "ask"),
        ("TN-S", {"bonding_csa": "6", "conductor_csa": "10"}, "bonding_csa", "passes"),
        ("TN-S", {"conductor_csa": "6"}, "conductor_csa", "ask"),
        ("TT", {"conductor_csa": "6"}, "conductor_csa", "passes"),
        ("", {"bonding_csa": "4"}, "bonding_csa", "passes"),
    ],
)
def test_bonding_is_as_large_as_the_system_asks(system: str, changes: dict[str, str], box: str, expected: str) -> None:
    made = job(RCD_30 | BARE, supply={"system": system, "ze": ""}, board={"zs": ""}, earthing=COPPER | changes)
    assert verdict(made, box, check="bonding") == expected


def test_small_bonding_is_a_note_on_a_report_and_no_matter_of_minor_works() -> None:
    earthing = COPPER | {"bonding_csa": "6"}
    assert verdict(job(earthing=earthing, form_set="EICR"), "bonding_csa") == "note"
    assert verdict(job(earthing=earthing, form_set="MEIWC"), "bonding_csa") == "passes"


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({"length": "39"}, "passes"),
        ({"length": "40"}, "note"),
        ({"length": "47", "description": "Lights"}, "passes"),
        ({"length": "48", "description": "Lights"}, "note"),
        (RING | {"length": "98", "r1_r2": ""}, "passes"),
        (RING | {"length": "99", "r1_r2": ""}, "note"),
        ({"length": "39", "wiring": "F"}, "passes"),
        ({"length": "40", "wiring": "F"}, "note"),
        ({"length": "42", "wiring": "H"}, "passes"),
        ({"length": "43", "wiring": "H"}, "note"),
        ({"length": "120", "wiring": "O"}, "passes"),
    ],
)
def test_the_drop_at_full_rating_is_noted_past_its_limit(changes: dict[str, str], expected: str) -> None:
    assert verdict(job(BARE | changes), "length", check="volt-drop") == expected
