import pytest

from domain.checks.shared.circuits_in_use import ways_in_use
from domain.checks.shared.tabulated import tabulated_limit
from tests.domain.checks.jobs import RCD_30, job


@pytest.mark.parametrize(
    ("system", "circuit", "expected"),
    [
        ("TN-C-S", {"rating": "32"}, "1.37 Ω"),
        ("", {"rating": "32"}, "1.37 Ω"),
        ("TN-S", {"device_standard": "BS 88-3", "rating": "45", "description": "Cooker"}, "0.57 Ω"),
        ("TN-S", {"device_standard": "BS 88-3", "rating": "80"}, "0.51 Ω"),
        ("TN-S", {"device_standard": "BS 88-3", "rating": "45", "zs_permitted": "1.00"}, "1.00 Ω"),
        ("TN-S", {"device_standard": "BS 88-3", "rating": "32", "description": "Sub-main"}, "1.60 Ω"),
        ("TN-S", {"device_standard": "BS 88-3", "rating": "33"}, None),
        ("TT", {"rating": "32"}, None),
        ("TT", RCD_30, "1667 Ω"),
        ("IT", RCD_30, None),
    ],
)
def test_the_figure_printed_as_permitted_zs_is_the_tables_own(
    system: str, circuit: dict[str, str], expected: str | None
) -> None:
    made = job(circuit, supply={"system": system})
    (way,) = ways_in_use(made)
    limit = tabulated_limit(made, way)
    assert (limit.shown if limit else None) == expected


@pytest.mark.parametrize(
    ("supplied_from", "feeds"),
    [
        ("DB1 / 1", True),
        ("db1, way 1", True),
        ("DB1 circuit 1", True),
        ("DB1 / 11", False),
        ("DB1", False),
        ("", False),
        ("origin", False),
    ],
)
def test_a_circuit_feeds_the_board_that_names_it(supplied_from: str, *, feeds: bool) -> None:
    second = {"id": "b2", "designation": "DB2", "supplied_from": supplied_from, "circuits": []}
    (way,) = ways_in_use(job(more_boards=[second]))
    assert way.feeds_a_board is feeds
