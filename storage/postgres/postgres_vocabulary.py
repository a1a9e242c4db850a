"""The words that jobs hold, on a server: so that a word typed with one letter wrong finds the one that was meant."""

from collections.abc import Iterable

from domain.log.spelling import gaps_of, may_be_misspelt
from storage.postgres.log_server import LogServer, Values
from storage.postgres.words import ANYWHERE, anywhere

_COUNTED = 100
"""Of words that so many jobs hold, none is likelier to be meant than another."""
_NEWEST = 300
_HELD = "SELECT 1 FROM job_text WHERE words @@ %s::tsquery LIMIT 1"
_HELD_LATELY = f"""
SELECT 1 FROM (SELECT id FROM job ORDER BY updated DESC, id DESC LIMIT {_NEWEST}) AS newest
    JOIN job_text ON job_text.job_id = newest.id WHERE words @@ %s::tsquery LIMIT 1
"""
_COUNT = f"""
SELECT word, (SELECT count(*) FROM (SELECT 1 FROM job_text WHERE words @@ asked::tsquery LIMIT {_COUNTED}) AS held)
FROM unnest(%s::text[], %s::text[]) AS known (word, asked)
"""


def learnt(words: Iterable[str]) -> Iterable[tuple[str, Values]]:
    """What keeps the words of a job, as `words_held` gives them, that may be new to the log."""
    kept = (word[1:] for word in words if word.startswith(ANYWHERE))
    # In one order for everybody, or two who keep the same words would wait for each other.
    near = sorted((gap, word) for word in kept if may_be_misspelt(word) for gap in gaps_of(word))
    if near:
        yield (
            "INSERT INTO near (gap, word) SELECT * FROM unnest(%s::text[], %s::text[]) ON CONFLICT DO NOTHING",
            ([gap for gap, _ in near], [word for _, word in near]),
        )


def knows(server: LogServer, word: str, *, begun: bool) -> bool:
    """Some job holds the word, or with `begun` one that begins so."""
    asked = (anywhere(word, begun=begun),)
    return bool(server.first(_HELD_LATELY, asked) or server.first(_HELD, asked))


def near(server: LogServer, word: str) -> Iterable[tuple[str, int]]:
    """Words that share a gap with one, each with the number of jobs that hold it."""
    rows = server.run("SELECT DISTINCT word FROM near WHERE gap = ANY(%s)", (sorted(gaps_of(word)),))
    known = [other for (other,) in rows]
    return [(other, jobs) for other, jobs in server.run(_COUNT, (known, [anywhere(each) for each in known]))]
