"""Descriptions that tell of another board, and of work in one, at one or beside one."""

import pytest

from domain.checks.shared.board_words import (
    tells_of_a_new_board,
    tells_of_a_replaced_board,
    tells_of_a_replaced_consumer_unit,
)


@pytest.mark.parametrize(
    "told",
    [
        "Consumer unit changed",
        "Consumer unit upgrade",
        "Fuse board upgraded to RCBOs",
        "Replaced old plastic consumer unit",
        "Replacement of existing consumer unit",
        "Swap of fuse box for a metal board",
        "The fuse boxes were replaced",
    ],
)
def test_a_replaced_consumer_unit_is_heard(told: str) -> None:
    assert tells_of_a_replaced_consumer_unit(told)


def test_a_new_board_replaces_nothing_and_a_distribution_board_is_no_consumer_unit() -> None:
    assert tells_of_a_new_board("Installation of a new metal 12-way consumer unit")
    assert not tells_of_a_replaced_board("Installation of a new metal 12-way consumer unit")
    assert tells_of_a_replaced_board("Distribution board DB2 replacement, or: distribution board replaced")
    assert not tells_of_a_replaced_consumer_unit("Distribution board replaced")


@pytest.mark.parametrize(
    "told",
    [
        "Replaced RCBO in consumer unit",
        "RCBO fitted in the consumer unit for the lights",
        "Fitted a fuse in fuse box",
        "Changed a breaker at the distribution board",
        "New fused spur near consumer unit",
        "Install of blanks to consumer unit",
        "Consumer unit cover replaced",
        "Consumer unit tails replaced",
        "Replaced tails to consumer unit",
        "New SPD fitted to consumer unit",
        "Changed socket fed from consumer unit",
        "New consumer unit labels",
    ],
)
def test_work_in_at_or_beside_a_board_is_not_taken_for_another_board(told: str) -> None:
    assert not tells_of_a_new_board(told)
