"""The same place is known however its address was typed, and another is not taken for it."""

import pytest

from domain.job.people import Premises
from domain.log.last_time.address import is_same_place, words_to_find


def place(address: str, postcode: str = "WQ7 1AB") -> Premises:
    return Premises(address=address, postcode=postcode)


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        (place("12 Tanner's Row\nWetherham"), place("12 TANNERS ROW", "wq71ab"), True),
        (place("12 Tanner's Row"), place("14 Tanner's Row"), False),
        (place("Flat 3, 12 Tanner's Row"), place("12 Tanner's Row"), False),
        (place("Flat 3, 12 Tanner's Row"), place("12 Tanners Row, flat 3"), True),
        (place("12 Tanner's Row"), place("12 Tanner's Row", "WQ7 1AC"), False),
        (place("The Old Forge"), place("Old Forge, Wetherham"), True),
        (place("The Old Forge"), place("Brook Cottage"), False),
        (place("12 Tanner's Row", ""), place("12 Tanner's Row"), True),
        (place("12 Tanner's Row", "N/A"), place("12 Tanner's Row, WQ7 1AB", ""), False),
        (place(""), place(""), False),
    ],
)
def test_two_papers_speak_of_one_place(one: Premises, other: Premises, same: bool) -> None:
    assert is_same_place(one, other) is same
    assert is_same_place(other, one) is same


def test_the_log_is_asked_for_the_postcode_and_the_numbers() -> None:
    assert words_to_find(place("Flat 3, 12 Tanner's Row")) == "3 12 wq71ab"
    assert words_to_find(place("The Old Forge", "")) == "the old forge"
