"""A server is told from a folder by one rule, wherever a place is typed."""

import pytest

from tests.tui.commands.command_line import ohmfolio, sentence_of
from tui.log_place import is_server


@pytest.mark.parametrize(
    ("typed", "is_one"),
    [
        ("postgresql://x", True),
        ("Postgres://x", True),
        ("/srv/log", False),
        ("mysql://x", False),
        ("postgresql", False),
    ],
)
def test_what_is_meant_as_a_server_is_told_from_a_folder(typed: str, is_one: bool) -> None:
    assert is_server(typed) is is_one


def test_an_address_of_another_kind_of_server_is_no_folder(tmp_path) -> None:
    said = ohmfolio("move", "--to", "mysql://office/jobs", home=tmp_path)
    assert "begins with postgresql://" in sentence_of(said)
    assert not any(tmp_path.iterdir())
