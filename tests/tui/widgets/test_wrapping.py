"""Wrapped text loses nothing, keeps to its width, and finds its cursor."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from tui.widgets.wrapping import fitted, line_of, padded, wrapped

TEXTS = st.text(alphabet="ab Ωé漢-\n", max_size=120)
WIDTHS = st.integers(min_value=2, max_value=40)


@given(TEXTS, WIDTHS)
def test_nothing_but_the_blank_or_line_end_it_broke_at_is_left_out(text: str, width: int) -> None:
    spans = wrapped(text, width)
    left_out = [text[end:start] for (_, end), (start, _) in pairwise(spans)]
    assert set(left_out) <= {"", " ", "\n"}
    assert (spans[0][0], spans[-1][1]) == (0, len(text))


@given(TEXTS, WIDTHS)
def test_no_line_is_wider_than_there_is_room(text: str, width: int) -> None:
    assert all(cell_len(text[start:end]) <= width for start, end in wrapped(text, width))


@given(TEXTS, WIDTHS, st.data())
def test_a_cursor_stands_on_the_line_that_holds_it(text: str, width: int, data: st.DataObject) -> None:
    cursor = data.draw(st.integers(min_value=0, max_value=len(text)))
    spans = wrapped(text, width)
    start, end = spans[line_of(spans, cursor)]
    assert start <= cursor <= end


@given(TEXTS, WIDTHS)
def test_a_fitted_text_says_that_it_was_cut(text: str, width: int) -> None:
    line = fitted(text, width)
    assert cell_len(line) <= width
    assert line == text.replace("\n", " ") or line.endswith("…")
    assert cell_len(padded(text, width)) == width


def test_words_stay_whole_where_there_is_room() -> None:
    text = "Hall cupboard by the door"
    assert [text[start:end] for start, end in wrapped(text, 14)] == ["Hall cupboard", "by the door"]
