"""The letters that the fonts of the papers have, and what they lack of a text."""

import tomllib
import unicodedata
from collections.abc import Iterator
from functools import cache
from importlib.resources import files

_ALWAYS = frozenset("\n")
"""Ends a line, and is no letter."""
_LETTER_AND_ACCENT = 2


def unprintable(text: str) -> str:
    """The first letter of a text, with the accents that stand on it, that no one font has; "" where all can be printed."""
    if text.isascii() and text.isprintable():
        return ""
    return next((letter for letter in _with_accents(text) if not _is_printable(letter)), "")


def letter_problem(text: str) -> str:
    """What keeps a text from being printed and what to do about it; "" where nothing does."""
    if not (letter := unprintable(text)):
        return ""
    named = " ".join(f"U+{ord(part):04X}" for part in letter.lstrip("\n"))
    if _stands_alone(letter):
        return f"{named} is an accent and stands on no letter; write it behind its letter"
    if _is_crowded(letter):
        return f"“{letter}” ({named}) has more accents than can be read back from paper; write it with fewer"
    shown = f"“{letter}” ({named})" if letter.isprintable() else named
    return f"{shown} is in no font of the paper; write it with other letters"


def families() -> dict[str, frozenset[int]]:
    """Code points by family of fonts, in the order in which they are tried."""
    return _families()


@cache
def _families() -> dict[str, frozenset[int]]:
    table = tomllib.loads(files("domain.gate").joinpath("letters.toml").read_text(encoding="utf-8"))
    return {family["name"]: frozenset(_codes(family["letters"])) for family in table["family"]}


def _codes(ranges: str) -> Iterator[int]:
    for each in ranges.split():
        first, _, last = each.partition("-")
        yield from range(int(first, 16), int(last, 16) + 1)


def _with_accents(text: str) -> Iterator[str]:
    letter = ""
    for each in text:
        if letter and unicodedata.category(each).startswith("M"):
            letter += each
            continue
        if letter:
            yield letter
        letter = each
    if letter:
        yield letter


def _stands_alone(letter: str) -> bool:
    """An accent at the beginning of a line: fonts put it on a circle that nobody typed."""
    first = letter.lstrip("\n")[:1]
    return bool(first) and unicodedata.category(first).startswith("M")


def _is_crowded(letter: str) -> bool:
    """Two accents and more beside their letter: what a file tells of such shapes, readers put together in several ways.

    Points of Hebrew are told apart.
    """
    together = unicodedata.normalize("NFC", letter)
    return len(together) > _LETTER_AND_ACCENT and unicodedata.bidirectional(together[0]) != "R"


def _is_printable(letter: str) -> bool:
    if _stands_alone(letter) or _is_crowded(letter):
        return False
    codes = {ord(part) for part in letter if part not in _ALWAYS}
    return any(codes <= family for family in _families().values())
