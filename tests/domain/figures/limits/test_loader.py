from decimal import Decimal

import pytest

from domain.edition import Edition
from domain.figures.limits.loader import LimitTableError, table, table_from
from domain.source import Trust

NOT_RECHECKED = Edition.A4.facts.of_inherited
SOUND = """
keys = ["type", "rating"]

[source]
standard = "BS 7671:2018+A2:2022"
table = "Table 41.3"
seen_in = "an open web listing"
trust = "published"

[columns]
type = "text"
rating = "A"
at_most = "Ω"

[[row]]
type = "B"
rating = "6"
at_most = "7.28"

[[row]]
type = "B"
rating = "32"
at_most = "1.37"
trust = "memory"
seen_in = "no open publication found"

[[row]]
type = "C"
rating = "6"
at_most = "3.64"
"""


def test_a_sound_table_is_read_with_exact_figures_and_their_source() -> None:
    limit = table_from("zs", SOUND).limit("at_most", "B", Decimal(6))
    assert limit
    assert (limit.value, limit.unit, limit.shown) == (Decimal("7.28"), "Ω", "7.28 Ω")
    assert limit.source.trust is Trust.PUBLISHED


def test_a_row_may_be_trusted_otherwise_than_its_table() -> None:
    limit = table_from("zs", SOUND).limit("at_most", "B", Decimal(32))
    assert limit
    assert (limit.source.trust, limit.source.table) == (Trust.MEMORY, "Table 41.3")
    assert "memory" in limit.caution


@pytest.mark.parametrize("keys", [("B", Decimal(20)), ("D", Decimal(6)), ("b", Decimal(6)), ("B",), (Decimal(6), "B")])
def test_what_is_not_in_the_table_has_no_limit(keys: tuple[str | Decimal, ...]) -> None:
    assert table_from("zs", SOUND).limit("at_most", *keys) is None


def without(line: str) -> str:
    assert line in SOUND
    return SOUND.replace(line, "", 1)


def instead(line: str, other: str) -> str:
    assert line in SOUND
    return SOUND.replace(line, other, 1)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (SOUND[: SOUND.index("[source]")] + SOUND[SOUND.index("[columns]") :], "names no source"),
        (instead("[source]", "[sauce]"), "names no source"),
        (without('standard = "BS 7671:2018+A2:2022"'), "lacks standard"),
        (without('table = "Table 41.3"'), "lacks table"),
        (without('seen_in = "an open web listing"'), "lacks seen_in"),
        (without('trust = "published"'), "lacks trust"),
        (instead('seen_in = "an open web listing"', 'seen_in = " "'), "lacks seen_in"),
        (instead('trust = "published"', 'trust = "hearsay"'), "trust is one of"),
        (instead('trust = "memory"', 'trust = "hearsay"'), "trust is one of"),
        (instead('trust = "published"', 'trust = "published"\nauthor = "x"'), "author"),
        (instead('at_most = "7.28"', "at_most = 7.28"), "must stand in quotes"),
        (instead('rating = "6"', "rating = 6"), "must stand in quotes"),
        (instead('at_most = "7.28"', 'at_most = "7,28"'), "is no figure"),
        (instead('at_most = "7.28"', 'at_most = "NaN"'), "is no figure"),
        (instead('at_most = "7.28"', 'at_mist = "7.28"'), "at_mist is no column"),
        (without('rating = "6"\n'), "lacks rating"),
        (instead('rating = "32"', 'rating = "6"'), "B 6 stands there twice"),
        (instead('rating = "32"', 'rating = "6.0"'), "stands there twice"),
        (instead('rating = "32"', 'rating = "3"'), "B 3 stands out of order"),
        (SOUND + '\n[[row]]\ntype = "B"\nrating = "40"\nat_most = "1.09"\n', "stands apart from its group"),
        (instead('keys = ["type", "rating"]', "keys = []"), "keys must be columns"),
        (instead('keys = ["type", "rating"]', 'keys = ["kind"]'), "keys must be columns"),
        (instead("[columns]", "[colums]"), "declares no columns"),
        (SOUND[: SOUND.index("[[row]]")], "has no rows"),
        (instead('type = "B"', 'type = "B"\ntype = "C"'), "zs"),
        ("keys = [", "zs"),
    ],
)
def test_a_bad_table_is_refused_with_the_reason(text: str, says: str) -> None:
    with pytest.raises(LimitTableError, match=says):
        table_from("zs", text)


def test_a_table_nobody_wrote_is_refused() -> None:
    with pytest.raises(LimitTableError, match="no table 'zs_of_dreams'"):
        table("zs_of_dreams", Edition.A2)


def test_a_newer_edition_takes_the_older_table_and_says_so() -> None:
    older, newer = table("insulation", Edition.A2), table("insulation", Edition.A4)
    assert [row.figures["at_least"].value for row in newer.rows] == [
        row.figures["at_least"].value for row in older.rows
    ]
    assert not any(NOT_RECHECKED in row.source.note for row in older.rows)
    assert all(NOT_RECHECKED in row.source.note for row in newer.rows)
