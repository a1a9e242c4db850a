"""RCDs of a board and of what feeds it protect its circuits, and their own times are judged."""

import pytest

from tests.domain.checks.jobs import RCD_30, found, job, verdict

SOCKETS = {"description": "Sockets", "rating": "20"}
HOUSE = {"use": "domestic"}


@pytest.mark.parametrize(
    ("board", "expected"),
    [
        ({}, "ask"),
        ({"rcd_type": "N/A"}, "ask"),
        ({"rcd_type": "-"}, "ask"),
        ({"rcd_type": "A", "rcd_idn": "30"}, "passes"),
        ({"rcd_type": "A"}, "passes"),
        ({"rcd_type": "A", "rcd_idn": "100"}, "ask"),
        ({"rcd_type": "A S", "rcd_idn": "30"}, "ask"),
    ],
)
def test_the_rcd_of_a_board_protects_its_sockets(board: dict[str, str], expected: str) -> None:
    assert verdict(job(SOCKETS, board=board, premises=HOUSE), "rcd_standard") == expected


def test_the_rcd_of_the_board_before_protects_too() -> None:
    first = {"id": "b2", "designation": "DB2", "supplied_from": "origin", "rcd_type": "A", "circuits": []}
    assert verdict(job(SOCKETS, board={"supplied_from": "DB2"}, more_boards=[first]), "rcd_standard") == "passes"


@pytest.mark.parametrize(
    ("rcd", "time", "expected"),
    [("A", "300", "passes"), ("A", "301", "fails"), ("A S", "129", "fails"), ("S", "188", "passes"), ("A", "0", "ask")],
)
def test_the_boards_own_rcd_is_judged(rcd: str, time: str, expected: str) -> None:
    (place,) = {each.place.box for each in found(job(board={"rcd_type": rcd, "rcd_time": time}), "rcd_time")} or {""}
    assert verdict(job(board={"rcd_type": rcd, "rcd_idn": "100", "rcd_time": time}), "rcd_time") == expected
    assert place in {"", "rcd_time"}


def test_a_circuits_time_belongs_to_the_nearest_rcd_before_it() -> None:
    board = {"rcd_type": "A S", "rcd_idn": "100"}
    assert verdict(job({"rcd_time": "310"}, board=board), "rcd_time") == "passes"
    assert verdict(job(RCD_30 | {"rcd_time": "310"}, board=board), "rcd_time") == "fails"


def test_a_delay_typed_for_the_main_switch_makes_it_time_delayed() -> None:
    switch = {"standard": "BS EN 61008", "rcd_type": "A", "rcd_idn": "100", "rcd_delay": "60", "rcd_time": "310"}
    assert verdict(job(main_switch=switch), "rcd_time") == "passes"
    assert verdict(job(main_switch=switch | {"rcd_delay": "N/A"}), "rcd_time") == "fails"


def test_on_tt_the_most_sensitive_rcd_before_a_circuit_sets_the_limit() -> None:
    tt = {"system": "TT", "ze": "150"}
    board = {"rcd_type": "A", "rcd_idn": "100", "zs": "150", "ipf": "1.1"}
    assert verdict(job({"zs": "160", "r1_r2": ""}, supply=tt, board=board), "zs") == "passes"
    assert verdict(job({"zs": "510", "r1_r2": ""}, supply=tt, board=board), "zs") == "fails"
    own = RCD_30 | {"zs": "510", "r1_r2": ""}
    assert verdict(job(own, supply=tt, board=board), "zs", check="earth-fault-loop-tt") == "ask"


def test_a_shared_rcd_may_have_its_time_in_the_header_of_the_board() -> None:
    shared = RCD_30 | {"rcd_standard": "BS EN 61008", "rcd_time": "N/A", "rcd_button": "N/A"}
    assert verdict(job(shared), "rcd_time") == "ask"
    assert verdict(job(shared, board={"rcd_type": "A", "rcd_idn": "30", "rcd_time": "24"}), "rcd_time") == "passes"


def test_rcds_are_known_by_their_everyday_names() -> None:
    assert verdict(job(RCD_30 | {"rcd_standard": "RCCB", "rcd_time": "310"}), "rcd_time") == "fails"
    assert verdict(job(RCD_30 | {"rcd_standard": "BS 9999", "rcd_time": "310"}), "rcd_time") == "note"
