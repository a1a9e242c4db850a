"""Text that no terminal obeys."""

import json

from hypothesis import given
from hypothesis import strategies as st

from tui.commands.output import as_json, columns, one_line
from tui.terminal.safe_text import safe_text

ANY_TEXT = st.text(st.characters(exclude_categories=()))
OBEYED = {
    chr(code)
    for code in (*range(0x20), *range(0x7F, 0xA0), *range(0x202A, 0x202F), *range(0x2066, 0x206A), 0x2028, 0x2029)
}


@given(ANY_TEXT)
def test_no_letter_a_terminal_obeys_is_shown(text: str) -> None:
    assert not OBEYED & set(safe_text(text))
    assert not OBEYED & set(safe_text(text, newlines=True)) - {"\n"}


@given(ANY_TEXT)
def test_json_says_the_same_and_holds_nothing_a_terminal_obeys(text: str) -> None:
    shown = as_json({"says": text})
    assert json.loads(shown) == {"says": text}
    assert not OBEYED & set(shown) - {"\n"}


def test_an_escape_is_seen() -> None:
    assert safe_text("a\x1b[31mb\n") == "a\\x1b[31mb\\x0a"


def test_running_text_goes_on_one_line() -> None:
    assert one_line("3 Mill Row\n Saltmere ") == "3 Mill Row Saltmere"


def test_columns_stand_under_each_other_whatever_the_width_of_a_letter() -> None:
    assert columns([("1", "電工", "x"), ("12", "ab", "y")], (2, 4)) == "1   電工  x\n12  ab    y"
