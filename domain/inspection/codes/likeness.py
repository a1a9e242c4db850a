"""Which guidance is most like an observation: by its words, seen through as the trade's, and by its inspection items.

Kept by hand: a hundred and some entries, and no library knows that a skt is a socket. Words that few entries hold weigh most;
what somebody once wrote of a kind, found whole, weighs more than the same words scattered.
"""

from collections import Counter
from collections.abc import Iterable
from functools import cache
from math import log
from typing import NamedTuple

from domain.inspection.codes.guidance import Guidance, guidance, guidance_on_items
from domain.inspection.codes.trade_words import Meant, meant_by, stems_of

MOST = 3
"""More than a few are no help beside a form."""
_TITLE, _PHRASE, _SAID = 1.0, 0.8, 0.2
"""What a word weighs by where an entry holds it."""
_WHOLE, _IN_PART = 1.5, 0.6
"""What words found together weigh: a phrase that is there whole, and the part found of one that is not."""
_TITLED = 5.0
"""What the words of a title weigh, found whole; in part, much less."""
_BY_ITEM = 0.75
"""What belonging to the observation's own item adds: it decides between likes, never against the words."""
_LEAST = 2.0
"""Less than this is likeness to nothing."""
_LEAST_SHARE = 0.25
"""Less than this share of the best one's likeness is not shown beside it."""


class _Phrase(NamedTuple):
    """A few words once written of a kind."""

    words: tuple[tuple[Meant, float], ...]
    """What each can stand for, and what it weighs."""
    weight: float


class _Indexed(NamedTuple):
    entry: Guidance
    phrases: tuple[_Phrase, ...]
    weights: dict[str, float]
    """What each word it holds weighs in it."""
    title: frozenset[str]


class _Typed(NamedTuple):
    meant: tuple[Meant, ...]
    words: frozenset[str]
    stems: frozenset[str]


def guidance_for(text: str, items: Iterable[str] = ()) -> tuple[Guidance, ...]:
    """The guidance most like an observation, the best first, at most `MOST`; by its items alone where no word says anything."""
    meant = tuple(each for each in meant_by(text) if each)
    typed = _Typed(meant, frozenset[str]().union(*meant), frozenset(stems_of(text)))
    numbers = frozenset(items)
    likenesses = [(_likeness(each, typed, numbers), each.entry) for each in _index()] if meant else []
    chosen = sorted((pair for pair in likenesses if pair[0] >= _LEAST), key=lambda pair: -pair[0])[:MOST]
    like = tuple(entry for weight, entry in chosen if weight >= _LEAST_SHARE * chosen[0][0])
    return like or guidance_on_items(numbers)[:MOST]


def _likeness(indexed: _Indexed, typed: _Typed, items: frozenset[str]) -> float:
    scattered = sum(max(indexed.weights.get(word, 0.0) for word in meant) for meant in typed.meant)
    together = max(_weight_together(phrase, typed.words) for phrase in indexed.phrases)
    titled = _TITLED * (len(indexed.title & typed.stems) / len(indexed.title)) ** 3
    by_item = _BY_ITEM if items & set(indexed.entry.items) else 0.0
    return scattered + together + titled + by_item


def _weight_together(phrase: _Phrase, words: frozenset[str]) -> float:
    found = sum(weight for meant, weight in phrase.words if not words.isdisjoint(meant))
    return found * _WHOLE if found == phrase.weight else found * _IN_PART * found / phrase.weight


@cache
def _rarities() -> dict[str, float]:
    held = Counter(word for entry in guidance() for word in _words_in(" ".join((entry.about, *entry.words))))
    return {word: log(1 + len(guidance()) / count) for word, count in held.items()}


@cache
def _index() -> tuple[_Indexed, ...]:
    return tuple(_indexed(entry) for entry in guidance())


def _indexed(entry: Guidance) -> _Indexed:
    weights: dict[str, float] = {}
    for share, texts in ((_SAID, (entry.says,)), (_PHRASE, entry.words), (_TITLE, (entry.about,))):
        weights |= {word: share * _rarities().get(word, 0.0) for word in _words_in(" ".join(texts))}
    phrases = tuple(_phrase(text) for text in (entry.about, *entry.words))
    return _Indexed(entry, phrases, weights, frozenset(stems_of(entry.about)))


def _phrase(text: str) -> _Phrase:
    words = tuple((meant, max(_rarities().get(word, 0.0) for word in meant)) for meant in meant_by(text) if meant)
    return _Phrase(words, sum(weight for _, weight in words))


def _words_in(text: str) -> frozenset[str]:
    return frozenset[str]().union(*meant_by(text, guesses=False))
