from decimal import Decimal

import pytest

from domain.edition import Edition
from domain.figures.limits.disconnection import longest_time


@pytest.mark.parametrize(
    ("system", "circuit", "u0", "seconds"),
    [
        ("TN", "final", "120", "0.8"),
        ("TN", "final", "121", "0.4"),
        ("TN", "final", "230", "0.4"),
        ("TN", "final", "231", "0.2"),
        ("TN", "final", "401", "0.1"),
        ("TN", "distribution", "230", "5"),
        ("TT", "final", "230", "0.2"),
        ("TT", "distribution", "230", "1"),
        ("TN", "final", "50", None),
        ("IT", "final", "230", None),
    ],
)
def test_times_of_table_41_1_by_system_circuit_and_voltage(
    system: str, circuit: str, u0: str, seconds: str | None
) -> None:
    limit = longest_time(system, circuit, Decimal(u0), Edition.A2)
    assert (str(limit.value) if limit else None) == seconds
