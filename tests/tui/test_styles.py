"""Styles speak of screens and widgets that exist: a name that is none would style nothing, and nobody would be told."""

import re

import pytest
from textual.dom import DOMNode

from tests.tui.places import kinds_of, places


def named_in(styles: str) -> set[str]:
    """The classes of screens and widgets that a style sheet names."""
    selectors = re.sub(r"\{[^}]*\}", " ", styles)
    return set(re.findall(r"(?<![\w.#:-])[A-Z]\w+", selectors))


@pytest.mark.parametrize("place", sorted(set(places()), key=str), ids=lambda place: place.__name__)
def test_a_style_names_only_what_there_is(place: type[DOMNode]) -> None:
    named = named_in(place.__dict__.get("DEFAULT_CSS", "")) | named_in(place.__dict__.get("CSS", None) or "")
    assert named - {kind.__name__ for kind in kinds_of(DOMNode)} == set()


def test_a_name_that_is_no_screen_is_seen() -> None:
    assert named_in("Dialog > #about, Question.-wide Static { height: 1; } Page:focus { }") == {
        *("Dialog", "Question", "Static", "Page")
    }
