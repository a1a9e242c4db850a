"""Abbreviations of the trade, spelled out where a text uses them first."""

import re
import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files


@cache
def abbreviations() -> Mapping[str, str]:
    """Each abbreviation as texts have it, and its words."""
    text = files("domain.coach").joinpath("abbreviations.toml").read_text(encoding="utf-8")
    words: Mapping[str, str] = tomllib.loads(text)["words"]
    return words


def spelled_out(*texts: str) -> tuple[str, ...]:
    """The texts of one thing to read, in their order: behind the first use of an abbreviation its words, in brackets.

    Where a text says the words themselves, or has the abbreviation or its words in brackets, it explains enough.
    """
    known = set[str]()
    every = " ".join(texts).casefold()

    def with_words(found: re.Match[str]) -> str:
        short = found[0]
        if short in known or abbreviations()[short].casefold() in every:
            return short
        known.add(short)
        is_bracketed = found.string[: found.start()].endswith("(") or found.string[found.end() :].startswith(" (")
        return short if is_bracketed else f"{short} ({abbreviations()[short]})"

    return tuple(_pattern().sub(with_words, text) for text in texts)


@cache
def _pattern() -> re.Pattern[str]:
    longest_first = sorted(abbreviations(), key=len, reverse=True)
    return re.compile(rf"(?<![\w/+-])(?:{'|'.join(map(re.escape, longest_first))})(?![\w/+-])")
