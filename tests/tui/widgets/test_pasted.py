"""Pasted lines are counted once, however the terminal sends their ends."""

import pytest

from tui.widgets.pasted import pasted_lines


@pytest.mark.parametrize(
    ("pasted", "lines"),
    [
        ("0.1\r\n0.2\r\n0.3\r\n", ["0.1", "0.2", "0.3"]),
        ("0.1\r\r0.2\r\r0.3\r\r0.4\r\r", ["0.1", "0.2", "0.3", "0.4"]),
        ("0.1\r0.2\r\r0.4\r", ["0.1", "0.2", "", "0.4"]),
        ("0.1\n\n0.3\n\n0.5", ["0.1", "", "0.3", "", "0.5"]),
        ("0.1\r\r0.3", ["0.1", "", "0.3"]),
        ("0.1\t0.2\r0.3\t0.4", ["0.1\t0.2", "0.3\t0.4"]),
        ("", []),
    ],
)
def test_ends_of_lines_are_counted_once(pasted: str, lines: list[str]) -> None:
    assert pasted_lines(pasted) == lines
