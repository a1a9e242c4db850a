"""Supplies, switches and runs that few jobs have: the checks still hold each against the figure that is its own."""

from decimal import Decimal

import pytest

from domain.checks import findings_of
from domain.checks.shared.cables import millivolts
from domain.checks.shared.circuits_in_use import ways_in_use
from domain.checks.shared.expected import expected_of
from domain.checks.whole_paper.agreement_circuits import CIRCUITS
from domain.checks.whole_paper.agreement_origin import ORIGIN
from domain.checks.whole_paper.agreement_record import Record
from tests.domain.checks.jobs import RCD_30, RING, found, job, verdict

THREE_PHASES = {"live_conductors": "AC 3-phase 4-wire"}


@pytest.mark.parametrize("standard", ["BS EN 60947-3", "BS 9999", "BS EN 61008"])
def test_a_main_switch_that_is_an_rcd_is_timed_as_one_whatever_standard_stands_beside_it(standard: str) -> None:
    switch = {"standard": standard, "rcd_type": "A", "rcd_idn": "100"}
    assert verdict(job(main_switch=switch | {"rcd_time": "300"}), "rcd_time") == "passes"
    assert verdict(job(main_switch=switch | {"rcd_time": "310"}), "rcd_time") == "fails"


def test_a_main_switch_to_an_older_standard_of_rcds_is_held_to_the_time_of_that_standard() -> None:
    switch = {"standard": "BS 4293", "rcd_type": "A", "rcd_idn": "100"}
    assert verdict(job(main_switch=switch | {"rcd_time": "200"}), "rcd_time") == "passes"
    assert verdict(job(main_switch=switch | {"rcd_time": "210"}), "rcd_time") == "fails"


@pytest.mark.parametrize(
    ("poles", "finds"),
    [("2", "poles-for-three-phases"), ("3", "poles-on-tt"), ("4", ""), ("1", "poles-for-three-phases")],
)
def test_too_few_poles_for_three_phases_on_tt_are_asked_about_once(poles: str, finds: str) -> None:
    made = job(supply=THREE_PHASES | {"system": "TT", "ze": "20"}, main_switch={"poles": poles})
    assert [each.case for each in found(made, "poles")] == ([finds] if finds else [])


@pytest.mark.parametrize(("demand", "expected"), [("69 kVA", "passes"), ("69.1 kVA", "fails")])
def test_a_demand_in_kilovoltamperes_is_shared_among_three_phases(demand: str, expected: str) -> None:
    made = job(supply=THREE_PHASES, earthing={"maximum_demand": demand})
    assert verdict(made, "maximum_demand", check="demand") == expected


@pytest.mark.parametrize(("seconds", "expected"), [("0.8", "passes"), ("0.81", "ask")])
def test_a_supply_of_another_voltage_has_the_time_of_that_voltage(seconds: str, expected: str) -> None:
    made = job({"disconnection_time": seconds}, supply={"voltage_to_earth": "110"})
    assert verdict(made, "disconnection_time") == expected


def test_the_run_to_one_point_carries_to_its_end_and_a_branched_one_may_not() -> None:
    run = {"length": "100", "r1_r2": "", "r2": "0.60", "zs": ""}
    assert verdict(job(run | {"points": "1"}), "r2") == "ask"
    assert verdict(job(run | {"points": "6"}), "r2") == "passes"


def test_a_ring_of_a_size_no_table_has_allows_for_no_spur() -> None:
    odd = RING | {"live_csa": "2.4", "cpc_csa": "1.4"}
    assert verdict(job(odd | {"r1_r2": "0.45"}), "r1_r2", check="ring") == "passes"
    assert verdict(job(odd | {"r1_r2": "0.46"}), "r1_r2", check="ring") == "ask"


def test_cables_that_are_not_flat_have_their_own_table_of_volt_drop() -> None:
    made = job({"live_csa": "25", "cpc_csa": "16"})
    (way,) = ways_in_use(made)
    drop = millivolts(way, made.edition)
    assert drop
    assert (drop.value, drop.source.table) == (Decimal("1.75"), "Table 4D2B")


@pytest.mark.parametrize("length", ["0", "-5"])
def test_a_run_of_no_length_has_no_volt_drop_and_no_expected_reading(length: str) -> None:
    made = job({"length": length, "r1_r2": ""})
    (way,) = ways_in_use(made)
    assert expected_of(made, way).volt_drop is None


@pytest.mark.parametrize("typed", ["7.8", "78"])
def test_a_fault_current_that_rises_along_the_cable_for_a_slipped_point_is_asked_about_so(typed: str) -> None:
    second = {"id": "b2", "designation": "DB2", "supplied_from": "DB1", "ipf": typed, "zs": "0.4", "circuits": []}
    made = job({"feeds": "DB2"}, more_boards=[second])
    (rises,) = [each for each in found(made, "ipf", check="sub-boards") if each.place.board == "b2"]
    assert rises.says.endswith("Did you mean 0.78 kA?")


@pytest.mark.parametrize(("idn", "lacks"), [("30", False), ("300", True), ("", False)])
def test_sockets_outdoors_lack_an_rcd_where_theirs_is_not_sensitive_enough(idn: str, lacks: bool) -> None:
    made = job(RCD_30 | {"description": "Sockets outdoors", "rcd_idn": idn})
    assert bool(CIRCUITS["socket-outlets outdoors without an RCD"](Record(made, ()))) is lacks


def test_circuits_that_all_read_too_high_ask_about_the_loop_before_them_whatever_others_have_no_dead_test() -> None:
    high, undecided = {"zs": "1.90", "r1_r2": "0.30"}, {"zs": "0.62", "r1_r2": ""}
    (asked,) = [each for each in findings_of(job(high, high, high, *[undecided] * 4)) if each.check == "loop-adds-up"]
    assert (asked.place.board, asked.place.circuit, asked.place.box) == ("b1", "", "zs")


@pytest.mark.parametrize(
    ("electrode", "expected"),
    [
        ({}, True),
        ({"electrode_type": "rod"}, False),
        ({"electrode_resistance": "44"}, False),
        ({"electrode_type": "rod", "electrode_resistance": "44"}, False),
    ],
)
def test_an_electrode_is_there_once_its_kind_or_its_resistance_is_told(
    electrode: dict[str, str], expected: bool
) -> None:
    made = job(earthing={"means": "distributor's facility"} | electrode)
    assert bool(ORIGIN["no electrode"](Record(made, ()))) is expected
