"""Days and times are those of clocks in the United Kingdom. The hours of the changes: the Summer Time Order 2002."""

from datetime import UTC, date, datetime

import pytest

from domain.civil_time import civil_day, short_moment, written_moment


@pytest.mark.parametrize(
    ("at", "shown"),
    [
        ("2026-06-12T23:15:00+00:00", "13 June 2026, 00:15 BST"),
        ("2026-06-12T22:59:00+00:00", "12 June 2026, 23:59 BST"),
        ("2026-01-12T23:15:00+00:00", "12 January 2026, 23:15 GMT"),
        ("2026-03-29T00:59:00+00:00", "29 March 2026, 00:59 GMT"),
        ("2026-03-29T01:00:00+00:00", "29 March 2026, 02:00 BST"),
        ("2026-10-25T00:30:00+00:00", "25 October 2026, 01:30 BST"),
        ("2026-10-25T01:30:00+00:00", "25 October 2026, 01:30 GMT"),
        ("2026-06-13T08:15:00+09:00", "13 June 2026, 00:15 BST"),
        ("2026-06-13T00:15:00", "13 June 2026, 00:15 BST"),
    ],
)
def test_a_moment_is_written_as_clocks_in_the_united_kingdom_show_it(at: str, shown: str) -> None:
    assert written_moment(datetime.fromisoformat(at)) == shown


def test_a_quarter_past_midnight_in_summer_belongs_to_the_day_that_has_begun() -> None:
    at = datetime(2026, 6, 12, 23, 15, tzinfo=UTC)
    assert civil_day(at) == date(2026, 6, 13)
    assert short_moment(at) == "13/06/2026 00:15 BST"
