"""A reading keeps what was typed and knows what it means."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter

from domain.job.reading import Meaning, Reading

READING = TypeAdapter(Reading)


@pytest.mark.parametrize(
    ("typed", "meaning", "value"),
    [
        ("0.10", Meaning.VALUE, "0.10"),
        ("0,35", Meaning.VALUE, "0.35"),
        (".5", Meaning.VALUE, "0.5"),
        ("-0.02", Meaning.VALUE, "-0.02"),
        (">999", Meaning.OVER, "999"),
        ("> 200", Meaning.OVER, "200"),
        ("<0.01", Meaning.UNDER, "0.01"),
        ("0.00", Meaning.UNDER, "0.01"),
        ("LIM", Meaning.LIMITATION, None),
        ("lim", Meaning.LIMITATION, None),
        ("n/a", Meaning.NOT_APPLICABLE, None),
        ("N/V", Meaning.NOT_VERIFIED, None),
        ("Y", Meaning.TICK, None),
        ("✓", Meaning.TICK, None),
        ("x", Meaning.CROSS, None),
        ("", Meaning.EMPTY, None),
        ("OL", Meaning.UNREADABLE, None),
        ("-", Meaning.UNREADABLE, None),
        ("1.2.3", Meaning.UNREADABLE, None),
        ("0.35 ohm", Meaning.UNREADABLE, None),
        ("٣", Meaning.UNREADABLE, None),
    ],
)
def test_the_habits_of_entry_of_the_trade(typed: str, meaning: Meaning, value: str | None) -> None:
    reading = Reading.of(typed)
    assert reading.meaning is meaning
    assert reading.value == (None if value is None else Decimal(value))
    assert reading.typed == typed


def test_a_trailing_nought_survives_the_way_through_a_document() -> None:
    assert READING.dump_json(READING.validate_json('"0.10"')) == b'"0.10"'


def test_a_bound_is_never_taken_for_a_figure() -> None:
    assert Reading.of(">999").figure is None
    assert Reading.of("0.00").figure is None
    assert Reading.of("32").figure == 32


def test_marks_are_shown_in_their_usual_spelling_and_readings_as_typed() -> None:
    assert [Reading.of(typed).shown for typed in ("lim", "na", "nv", "y", "0,35")] == ["LIM", "N/A", "N/V", "✓", "0,35"]


@given(st.text(max_size=24))
def test_anything_typed_is_kept_and_never_raises(typed: str) -> None:
    reading = Reading.of(typed)
    assert reading.typed == typed.strip()
    assert (reading.value is None) == (reading.meaning not in {Meaning.VALUE, Meaning.OVER, Meaning.UNDER})


@given(st.decimals(min_value=0, max_value=9999, places=2, allow_nan=False))
def test_every_plain_figure_is_read_at_its_own_value(figure: Decimal) -> None:
    assert Reading.of(str(figure)).value in {figure, Decimal("0.01")}


@pytest.mark.parametrize(
    ("typed", "shown"), [(".4", "0.4"), ("0.4", "0.4"), ("<.01", "<0.01"), ("-.2", "-0.2"), (",5", "0,5"), ("4.", "4.")]
)
def test_a_figure_below_one_is_shown_with_its_nought_and_kept_as_typed(typed: str, shown: str) -> None:
    # ISO 80000-1, 7.3, from memory: a nought stands before the decimal sign of a number below one.
    assert (Reading.of(typed).shown, Reading.of(typed).typed) == (shown, typed)
