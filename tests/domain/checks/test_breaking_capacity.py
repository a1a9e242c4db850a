import pytest

from tests.domain.checks.jobs import found, job, verdict

BARE_SUPPLY = {"device_standard": "BS 88-2", "device_rating": "200", "ipf": ""}


@pytest.mark.parametrize(
    ("ipf", "capacity", "expected"),
    [
        ("5.9", "6", "passes"),
        ("6.0", "6", "passes"),
        ("6.01", "6", "fails"),
        (">6", "6", "fails"),
        (">5", "6", "passes"),
        ("LIM", "6", "passes"),
        ("", "6", "passes"),
        ("9.0", "10", "passes"),
        ("9.0", "", "passes"),
        ("1.0", "6000", "ask"),
    ],
)
def test_no_device_has_to_break_more_than_it_can(ipf: str, capacity: str, expected: str) -> None:
    made = job({"breaking_capacity": capacity}, supply=BARE_SUPPLY, board={"ipf": ipf, "zs": ""})
    assert verdict(made, "breaking_capacity") == expected


@pytest.mark.parametrize(
    ("ipf", "fuse", "rating", "phases", "expected"),
    [
        ("9.0", "BS 88-3", "100", "1", "note"),
        ("9.0", "BS 1361 type II", "80", "1", "note"),
        ("16", "BS 88-3", "100", "1", "note"),
        ("16.1", "BS 88-3", "100", "1", "fails"),
        ("9.0", "BS 88-3", "125", "1", "fails"),
        ("9.0", "BS 88-2", "100", "1", "fails"),
        ("9.0", "BS 88-3", "100", "3", "fails"),
        ("9.0", "", "", "1", "fails"),
    ],
)
def test_a_consumer_unit_behind_the_supply_fuse_may_have_a_rating_of_its_own(
    ipf: str, fuse: str, rating: str, phases: str, expected: str
) -> None:
    supply = {"device_standard": fuse, "device_rating": rating}
    made = job(supply=supply, board={"ipf": ipf, "zs": "", "phases": phases})
    assert verdict(made, "breaking_capacity") == expected


def test_a_board_fed_from_another_has_no_such_rating() -> None:
    first = {"id": "b9", "designation": "DB0", "supplied_from": "origin", "circuits": []}
    made = job(board={"ipf": "9", "zs": "", "supplied_from": "DB0 / 2"}, more_boards=[first])
    assert verdict(made, "breaking_capacity") == "fails"


def test_the_supplys_figure_stands_in_at_the_origin_while_the_board_has_none() -> None:
    made = job(supply=BARE_SUPPLY | {"ipf": "7"}, board={"ipf": ""})
    (finding,) = found(made, "breaking_capacity")
    assert finding.says.startswith("7 kA at DB1 is over 6 kA, what the device can break. ")
