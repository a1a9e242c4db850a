"""Words typed with one letter wrong, one too many, one too few, or two swapped.

Kept by hand: a library of distances would compare a word with every word of the log; the index hands over the few that
share a gap with it, and what is left to compare is this.
"""

from collections.abc import Callable, Iterable

from domain.log.job_log import Query
from domain.log.search_words import understood
from domain.misspelling import is_one_slip, may_be_misspelt
from domain.words import words_of


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
