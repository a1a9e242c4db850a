"""What is often written into boxes of running text, found by a letter or two."""

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from domain.job.box import boxes_of
from domain.job.job import SECTIONS
from domain.place import Place
from domain.words import words_of

Phrases = Mapping[tuple[str, str], tuple[str, ...]]
"""By section and box."""


@cache
def phrases() -> Phrases:
    """The program's own, as its table has them."""
    return phrases_in(files("domain.usual").joinpath("phrases.toml").read_text(encoding="utf-8"))


def phrases_in(text: str) -> Phrases:
    """The phrases a TOML text holds. ValueError where it names no source, KeyError for a box that there is not."""
    data: dict[str, Any] = tomllib.loads(text)
    if not str(data.get("source", "")).strip():
        raise ValueError("phrases without a source")
    held: dict[tuple[str, str], tuple[str, ...]] = {}
    for row in data["phrase"]:
        for each in row["boxes"]:
            section, _, box = each.partition(".")
            if box not in boxes_of(SECTIONS[section]):
                raise KeyError(f"there is no box {each}")
            held[section, box] = (*held.get((section, box), ()), *row["texts"])
    return held


def phrases_begun(place: Place, letters: str) -> tuple[str, ...]:
    """The phrases of a box in which each word typed begins a word, those that begin so first; () where nothing is typed."""
    words = words_of(letters)
    held = phrases().get((place.section, place.box), ())
    found = [each for each in held if all(any(w.startswith(word) for w in words_of(each)) for word in words)]
    return tuple(sorted(found, key=lambda each: not words_of(each)[0].startswith(words[0]))) if words else ()
