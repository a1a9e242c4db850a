"""Times as people remember them. Seasons are those of calendar months, as the Met Office counts them for its climate
records: spring March to May, summer June to August, autumn September to November, winter December to February."""

from datetime import date

import pytest

from domain.log.spelling import sounds_alike
from domain.log.times import in_words, time_at, words_of_days
from domain.misspelling import is_one_edit_apart

ON = date(2026, 11, 30)


@pytest.mark.parametrize(
    ("typed", "taken", "days"),
    [
        ("march", 1, "m03"),
        ("mar", 1, "m03"),
        ("last march", 2, "y2026m03"),
        ("last december", 2, "y2025m12"),
        ("last november", 2, "y2025m11"),
        ("march 2025", 2, "y2025m03"),
        ("5 march", 2, "m03d05"),
        ("5th march 2025", 3, "y2025m03d05"),
        ("spring", 1, "m03 m04 m05"),
        ("last spring", 2, "y2026m03 y2026m04 y2026m05"),
        ("summer 2024", 2, "y2024m06 y2024m07 y2024m08"),
        ("this autumn", 2, "y2026m09 y2026m10 y2026m11"),
        ("last winter", 2, "y2025m12 y2026m12 y2026m01 y2026m02"),
        ("christmas", 1, "m12"),
        ("2025", 1, "y2025"),
        ("last year", 2, "y2025"),
        ("this year", 2, "y2026"),
        ("last month", 2, "y2026m10"),
        ("two months ago", 3, "y2026m08 y2026m09 y2026m10"),
        ("3 years ago", 3, "y2023"),
        ("yesterday", 1, "y2026m11d29"),
        ("march quill", 1, "m03"),
    ],
)
def test_a_time_is_read_with_as_many_words_as_belong_to_it(typed: str, taken: int, days: str) -> None:
    meant = time_at(tuple(typed.split()), ON)
    assert meant == (taken, tuple(days.split()))


@pytest.mark.parametrize("typed", ["", "last", "marchbanks", "ma", "12", "1899", "last flat", "ago", "0 weeks ago"])
def test_what_is_no_time_is_none(typed: str) -> None:
    assert time_at(tuple(typed.split()), ON) is None


@pytest.mark.parametrize("typed", ["last spring", "yesterday", "two weeks ago"])
def test_without_a_day_to_count_from_nothing_is_counted(typed: str) -> None:
    meant = time_at(tuple(typed.split()), None)
    assert meant is None or not any(day.startswith("y") for day in meant.days)


def test_last_week_is_the_seven_days_from_monday() -> None:
    meant = time_at(("last", "week"), ON)
    assert meant
    assert meant.days == words_of_some("23 24 25 26 27 28 29")


def words_of_some(days: str) -> tuple[str, ...]:
    return tuple(f"y2026m11d{day}" for day in days.split())


def test_a_day_is_kept_by_all_the_words_it_may_be_asked_by_and_read_back_in_words() -> None:
    words = words_of_days([date(2026, 2, 18), None, date(2026, 2, 18)])
    assert [in_words(word) for word in words] == [
        "18 February 2026",
        "February 2026",
        "2026",
        "February",
        "18 February",
    ]
    assert in_words("kitchen") == "kitchen"


@pytest.mark.parametrize(("typed", "meant"), [("filips", "phillips"), ("penhalow", "pennhallow")])
def test_words_that_sound_alike_are_taken_for_each_other(typed: str, meant: str) -> None:
    assert sounds_alike(typed, meant) or is_one_edit_apart(typed, meant)


@pytest.mark.parametrize(
    ("typed", "meant"), [("oak", "oaks"), ("quill", "quill"), ("harden", "harper"), ("lane", "line")]
)
def test_short_words_and_other_sounds_are_not(typed: str, meant: str) -> None:
    assert not sounds_alike(typed, meant)
