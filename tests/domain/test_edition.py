"""Editions as data: their days, whose tables they take over, and what is said of that."""

from datetime import date
from pathlib import Path

import pytest

import domain.figures.limits
from domain.edition import Edition, edition_for, editions, newest
from domain.figures.limits.loader import table
from domain.regulation import regulation, regulations


def test_every_edition_has_a_row_in_order_of_publication() -> None:
    assert [*editions()] == [*Edition]
    published = [row.published for row in editions().values() if row.published]
    assert published == sorted(published)
    assert newest() is [*Edition][-1]


# Source: the publishers' announcement as reported in the trade press: published 15 April 2026, the one before withdrawn
# 15 October 2026. The first days of A2 and A3 are from memory.
@pytest.mark.parametrize(
    ("on", "follows"),
    [
        ("2021-06-01", Edition.EARLIER),
        ("2022-09-27", Edition.EARLIER),
        ("2022-09-28", Edition.A2),
        ("2024-07-30", Edition.A2),
        ("2024-07-31", Edition.A3),
        ("2026-04-15", Edition.A3),
        ("2026-10-14", Edition.A3),
        ("2026-10-15", Edition.A4),
        ("2030-01-01", Edition.A4),
    ],
)
def test_the_day_of_the_work_says_which_edition_it_follows(on: str, follows: Edition) -> None:
    assert edition_for(date.fromisoformat(on)) is follows


def test_ids_of_documents_stay() -> None:
    assert Edition("BS 7671:2018+A2:2022") is Edition.A2
    assert Edition("BS 7671:2018+A4:2026") is Edition.A4


def test_a_table_names_the_edition_whose_folder_it_lies_in() -> None:
    folders = {row.tables: row.edition for row in editions().values() if row.tables}
    for file in Path(domain.figures.limits.__file__).parent.glob("*/*.toml"):
        source = table(file.stem, folders[file.parent.name]).source
        if source.standard.startswith("BS 7671:2018"):
            assert source.standard == folders[file.parent.name], file.name


def test_what_is_taken_over_says_so_where_the_newer_one_was_not_read() -> None:
    assert table("insulation", Edition.A3).source.note == table("insulation", Edition.A2).source.note
    assert "not re-checked" in table("insulation", Edition.A4).source.note
    assert "newer edition" in table("insulation", Edition.EARLIER).source.note


@pytest.mark.parametrize("name", regulations())
def test_a_regulation_is_cited_as_it_was_read(name: str) -> None:
    assert regulation(name) == regulation(name, Edition.A2) == regulation(name, Edition.A3)
    assert "not re-checked" in regulation(name, Edition.A4).cited
