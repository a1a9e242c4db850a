"""What a description means in the trade's words: abbreviations, synonyms, endings, cut words and a letter wrong are seen through."""

import re
import tomllib
from collections.abc import Iterable, Mapping
from functools import cache, lru_cache
from importlib.resources import files

from domain.inspection.codes.guidance import guidance
from domain.misspelling import is_one_edit_apart, may_be_misspelt
from domain.words import words_of

Meant = frozenset[str]
"""The words of the guidance that one word typed can stand for."""

_DECIMAL = re.compile(r"(?<=\d)[.,](?=\d)")
_FIGURE_AND_UNIT = re.compile(r"(\d)(?=(?:mm2?|mm²|a|amps?|ma|v|kw|ka|ms|m|th|x|ohms?|m?ohms?)\b)", re.IGNORECASE)
_INITIALS = re.compile(r"(?<=\b[A-Za-z])\.(?=[A-Za-z]\b)")
_ENDINGS = (("ies", "y", 3), ("ing", "", 4), ("ed", "", 3), ("s", "", 3))
"""An ending, what takes its place, and the letters that must stand before it."""
_POINT = "p"
_REMEMBERED = 4096
"""Texts and words: those of the guidance are gone through more than once, and what is typed is asked about again while it grows."""
_SHORTEST_BEGINNING = 3
"""Letters; from a shorter beginning nothing is guessed."""


def meant_by(text: str, *, guesses: bool = True) -> tuple[Meant, ...]:
    """What each word of a text can stand for, in order; nothing for one that says nothing or is not known.

    With `guesses` a word that is not known is taken for one that it begins, or that it is a letter away from.
    """
    stems = stems_of(text)
    found: list[Meant] = []
    at = 0
    while at < len(stems):
        taken = next(
            (n for n in range(min(_longest(), len(stems) - at), 1, -1) if stems[at : at + n] in _meanings()), 1
        )
        together = stems[at : at + taken]
        found.append(_meanings().get(together) or _alone(together[0], guesses=guesses))
        at += taken
    return tuple(found)


@lru_cache(maxsize=_REMEMBERED)
def stems_of(text: str) -> tuple[str, ...]:
    """The words of a text without their endings; figures stand apart from their units, and keep their decimals."""
    apart = _FIGURE_AND_UNIT.sub(r"\1 ", _DECIMAL.sub(_POINT, _INITIALS.sub("", text)))
    return tuple(_stem(word) for word in words_of(apart))


def _stem(word: str) -> str:
    for ending, instead, least in _ENDINGS:
        if word.endswith(ending) and len(word) - len(ending) >= least and not word.endswith(("ss", "os", "us", "is")):
            word = word[: -len(ending)] + instead
            break
    if len(word) > _SHORTEST_BEGINNING and word[-1] == word[-2] and word[-1] not in "aeiouls":
        word = word[:-1]
    return word[:-1] if len(word) > _SHORTEST_BEGINNING and word.endswith("e") else word


def _alone(stem: str, *, guesses: bool) -> Meant:
    if stem in _passed_over():
        return frozenset()
    if stem in _known():
        return _meanings().get((stem,), frozenset({stem}))
    return _guessed(stem) if guesses else frozenset()


@lru_cache(maxsize=_REMEMBERED)
def _guessed(stem: str) -> Meant:
    if len(stem) >= _SHORTEST_BEGINNING and stem.isalpha():
        begun = {word for word in _known() if word.startswith(stem)}
        if begun:
            return _all_meant(begun)
    if may_be_misspelt(stem):
        # Hardly anybody misses the first letter.
        return _all_meant(word for word in _known() if word[0] == stem[0] and is_one_edit_apart(stem, word))
    return frozenset()


def _all_meant(words: Iterable[str]) -> Meant:
    return frozenset(other for word in words for other in _meanings().get((word,), frozenset({word})))


@cache
def _meanings() -> Mapping[tuple[str, ...], Meant]:
    """What words typed together stand for; a word of the guidance that has a row stands for itself too."""
    meanings: dict[tuple[str, ...], set[str]] = {}
    for kept, typed in _file()["means"].items():
        word = " ".join(stems_of(kept))
        for each in (kept, *typed):
            meanings.setdefault(stems_of(each), set()).add(word)
    return {stems: frozenset(words) for stems, words in meanings.items()}


@cache
def _known() -> frozenset[str]:
    """Every word that means something by itself: those with a row, and those the guidance is written in."""
    written = (stem for entry in guidance() for text in (entry.about, *entry.words) for stem in stems_of(text))
    return frozenset(stems[0] for stems in _meanings() if len(stems) == 1).union(written) - _passed_over()


@cache
def _passed_over() -> frozenset[str]:
    return frozenset(stem for word in _file()["passed_over"]["words"] for stem in stems_of(word))


@cache
def _longest() -> int:
    return max(map(len, _meanings()))


@cache
def _file() -> Mapping[str, Mapping[str, list[str]]]:
    return tomllib.loads(files("domain.inspection.codes").joinpath("trade_words.toml").read_text("utf-8"))
