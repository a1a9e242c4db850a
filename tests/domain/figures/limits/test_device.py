import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.figures.limits.device import breaker_type_in, is_time_delayed, standard_in
from domain.job.supply import DEVICE_STANDARDS


@pytest.mark.parametrize("standard", DEVICE_STANDARDS)
def test_every_device_the_boxes_offer_is_known_by_its_own_name(standard: str) -> None:
    assert standard_in(standard) == standard


@pytest.mark.parametrize(
    ("typed", "standard"),
    [
        ("60898", "BS EN 60898"),
        ("bs en 60898-1:2003", "BS EN 60898"),
        ("BSEN60898", "BS EN 60898"),
        ("EN 61009-1", "BS EN 61009"),
        (" BS88-3 ", "BS 88-3"),
        ("88-2", "BS 88-2"),
        ("BS 1361 type II", "BS 1361"),
        ("BS EN IEC 60947-2", "BS EN 60947-2"),
        ("BS EN 60947-3", None),
        ("bs-en-60898", "BS EN 60898"),
        ("BS_EN_61009-1", "BS EN 61009"),
        ("BS HD 60269-2", "BS 88-2"),
        ("BS HD 60269-3:2010", "BS 88-3"),
        ("BS 88–2", "BS 88-2"),
        ("BS 88-2:2013", "BS 88-2"),
        ("BS 88-2.2", "BS 88-2.2"),
        ("BS88-6", "BS 88-6"),
        ("BS 88-2.1", None),
        ("BS 882", None),
        ("BS 88", None),
        ("608980", None),
        ("MCB", None),
        ("", None),
    ],
)
def test_standards_are_known_as_people_write_them(typed: str, standard: str | None) -> None:
    assert standard_in(typed) == standard


@pytest.mark.parametrize(
    ("typed", "letter"),
    [
        ("B", "B"),
        ("c", "C"),
        ("Type D", "D"),
        ("N/A", ""),
        ("", ""),
        ("BC", ""),
        ("2", "2"),
        ("type 3", "3"),
        ("10", ""),
    ],
)
def test_a_breakers_letter_is_read(typed: str, letter: str) -> None:
    assert breaker_type_in(typed) == letter


@pytest.mark.parametrize(
    ("typed", "delayed"),
    [
        ("S", True),
        ("A S", True),
        ("AC-S", True),
        ("type s", True),
        ("selective", True),
        ("time delayed", True),
        ("A", False),
        ("AC", False),
        ("", False),
    ],
)
def test_a_selective_rcd_is_told_by_its_mark(typed: str, *, delayed: bool) -> None:
    assert is_time_delayed(typed) is delayed


@given(st.text())
def test_any_text_is_a_known_device_or_none(typed: str) -> None:
    others = {"BS EN 61008", "BS EN 62423", "BS 4293", "BS 7288", "BS 88-2.2", "BS 88-6"}
    assert standard_in(typed) in {None, *DEVICE_STANDARDS, *others}
