"""The words that jobs hold, on a server: so that a word typed with one letter wrong finds the one that was meant."""

from collections.abc import Iterable, Sequence

from domain.log.spelling import heard_gaps_of
from domain.misspelling import may_be_misspelt
from storage.postgres.log_server import LogServer
from storage.postgres.transaction import Values
from storage.postgres.words import ANYWHERE

MARK = "^"
"""Stands for the sound of ch where a word is kept as it is heard: no word has it, and a server keeps no NUL."""


def learnt(words: Iterable[str]) -> Iterable[tuple[str, Values]]:
    """What keeps the words of a job, as `words_held` gives them, that may be new to the log."""
    kept = (word[1:] for word in words if word.startswith(ANYWHERE))
    # In one order for everybody, or two who keep the same words would wait for each other.
    near = sorted((gap, word) for word in kept if may_be_misspelt(word) for gap in _gaps(word))
    if near:
        yield (
            "INSERT INTO near (gap, word) SELECT * FROM unnest(%s::text[], %s::text[]) ON CONFLICT DO NOTHING",
            ([gap for gap, _ in near], [word for _, word in near]),
        )


def near(server: LogServer, words: Sequence[str]) -> dict[str, list[str]]:
    """By each word those that share a gap with it, asked for in one journey."""
    asked = "SELECT DISTINCT word FROM near WHERE gap = ANY(%s)"
    answers = server.answers(*((asked, (_gaps(word),)) for word in words))
    return {word: [other for (other,) in rows] for word, rows in zip(words, answers, strict=True)}


def _gaps(word: str) -> list[str]:
    return [gap.replace("\0", MARK) for gap in heard_gaps_of(word)]
