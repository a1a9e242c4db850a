"""Words typed with one letter wrong, one too many, one too few, or two swapped.

Kept by hand: a library of distances would compare a word with every word of the log; the index hands over the few that
share a gap with it, and what is left to compare is this.
"""

from collections.abc import Callable, Iterable

from domain.log.job_log import Query
from domain.log.search_words import understood
from domain.words import words_of

SHORTEST = 4
"""Shorter words, and those with figures in them, are never put right: too much is one letter away from them."""


def gaps_of(word: str) -> frozenset[str]:
    """A word, and the word with each of its letters left out. Words one slip apart share one of these."""
    return frozenset({word, *(word[:at] + word[at + 1 :] for at in range(len(word)))})


def may_be_misspelt(word: str) -> bool:
    """Long enough, and all letters."""
    return len(word) >= SHORTEST and word.isalpha()


def is_one_slip(typed: str, meant: str) -> bool:
    """One letter wrong, too many or too few, or two neighbours swapped."""
    if typed == meant or abs(len(typed) - len(meant)) > 1:
        return False
    at = next((each for each, (one, other) in enumerate(zip(typed, meant, strict=False)) if one != other), None)
    if at is None:
        return True
    rest, other = typed[at:], meant[at:]
    return (
        rest[1:] == other[1:]
        or rest[1:] == other
        or rest == other[1:]
        or (rest[:2] == other[1::-1] and rest[2:] == other[2:])
    )


def corrected(
    query: Query, knows: Callable[[str, bool], bool], near: Callable[[str], Iterable[tuple[str, int]]]
) -> Query | None:
    """The query with each unknown word put right; None where none is unknown, or one cannot be.

    `knows(word, begun)` tells whether any job holds the word, or one that begins so; `near(word)` gives words that
    share a gap with it, each with the number of jobs that hold it.
    """
    asked = understood(query)
    changed: dict[str, str] = {}
    for name in ("words", "client", "place"):
        words = words_of(getattr(asked, name))
        better = [_corrected(word, knows, near, begun=at == len(words) - 1) for at, word in enumerate(words)]
        if "" in better:
            return None
        if tuple(better) != words:
            changed[name] = " ".join(better)
    return asked.model_copy(update=changed) if changed else None


def _corrected(
    word: str,
    knows: Callable[[str, bool], bool],
    near: Callable[[str], Iterable[tuple[str, int]]],
    *,
    begun: bool,
) -> str:
    if knows(word, begun):
        return word
    if not may_be_misspelt(word):
        return ""
    meant = [(-jobs, other) for other, jobs in near(word) if jobs and is_one_slip(word, other)]
    return min(meant)[1] if meant else ""
