import re
from pathlib import Path

import pytest

import domain.figures.limits
from domain.edition import Edition
from domain.figures.limits.loader import table
from domain.source import Trust

FILES = sorted(Path(domain.figures.limits.__file__).parent.glob("*/*.toml"))
NAMES = [file.stem for file in FILES]


def test_there_are_tables() -> None:
    assert {"zs_breakers", "insulation", "rcd_times", "conductor_resistance", "k_values"} <= set(NAMES)


@pytest.mark.parametrize("edition", list(Edition))
@pytest.mark.parametrize("name", NAMES)
def test_every_table_is_read_for_every_edition(name: str, edition: Edition) -> None:
    read = table(name, edition)
    assert all(row.source.standard and row.source.table and row.source.seen_in for row in read.rows)
    assert all(row.figures for row in read.rows)


@pytest.mark.parametrize("file", FILES, ids=NAMES)
def test_every_file_opens_with_a_sentence_and_names_publications_in_words(file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    assert re.match(r"# [A-Z][^\n]+\.\n", text)
    assert not re.search(r"://|www\.|\.(?:com|uk|org|net)\b", text)


@pytest.mark.parametrize("name", ["zs_bs1361", "zs_bs88_2_2", "zs_bs3871", "k_values"])
def test_tables_nobody_has_seen_in_print_say_so(name: str) -> None:
    assert all(row.source.trust is Trust.MEMORY for row in table(name, Edition.A2).rows)


def test_habits_of_the_trade_are_not_passed_off_as_limits_of_the_standard() -> None:
    for name in ("ring", "insulation_practice", "plausibility"):
        assert all("(common practice)" in row.source.cited for row in table(name, Edition.A2).rows)
