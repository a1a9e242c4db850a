"""Dates as electricians type them: the day first, held against the standard library's own writing of them."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.dates import date_in, date_problem, written

OF_TWO_FIGURES = st.dates(date(1969, 1, 1), date(2068, 12, 31))
"""The years that POSIX `strptime` reads `%y` as (IEEE Std 1003.1, strptime)."""
WITH_FIGURES = [f"%d{sep}%m{sep}{year}" for sep in "/.- " for year in ("%y", "%Y")]
WITH_NAMES = [f"%d{sep}{month}{sep}{year}" for sep in ("-", " ", "") for month in ("%b", "%B") for year in ("%y", "%Y")]


@given(OF_TWO_FIGURES, st.sampled_from([*WITH_FIGURES, *WITH_NAMES, "%Y-%m-%d", "%Y/%m/%d"]))
def test_a_date_means_the_same_day_however_it_is_written(day: date, form: str) -> None:
    assert date_in(f" {day.strftime(form).lower()} ") == day
    assert date_in(day.strftime(form)) == day


@given(st.dates(min_value=date(1000, 1, 1)))
def test_a_date_reads_back_as_sheets_print_it_and_by_iso_8601(day: date) -> None:
    assert date_in(written(day)) == day
    assert date_in(day.isoformat()) == day


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("1/2/26", date(2026, 2, 1)),
        ("12/5/98", date(1998, 5, 12)),
        ("1st Sept 2026", date(2026, 9, 1)),
        ("3RD of May 2026", None),
        ("31/02/2026", None),
        ("11/18/26", None),
        ("18/11/126", None),
        ("18 Nev 2026", None),
        ("181126", None),
        ("10 years", None),
        ("", None),
    ],
)
def test_what_names_no_day_of_the_calendar_is_no_date(typed: str, day: date | None) -> None:
    assert date_in(typed) == day


@pytest.mark.parametrize("typed", ["18/11", "18 Nov", "18th November", "18-11"])
def test_a_date_without_a_year_is_asked_for_it(typed: str) -> None:
    assert date_in(typed) is None
    assert "has no year" in date_problem(typed)
    assert date_problem(f"{typed} 2026") == ""
