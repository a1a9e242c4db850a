"""The words that jobs hold, as an index of a server has them: each with a letter of where it stands."""

from collections.abc import Iterable, Mapping, Sequence

from domain.job.job import Job
from domain.log.job_log import JobLine, Query
from domain.log.log_line import Findable
from domain.log.sought import Sought
from domain.words import joined, words_of
from storage.postgres.commonness import Either, Lexeme
from storage.search import WHEN, WORDS_ASKED_MAX, facets_of
from storage.search_text import text_values

_LONGEST = 400
"""Letters asked for in one word; a number may be typed as one, and an index takes no longer ones."""
ANYWHERE, CLIENT, PLACE = "a", "c", "p"
"""Facets begin with a z."""
_ENGINEER, _WHEN = "ze", WHEN
_IN = {"": ANYWHERE, "client": CLIENT, "place": PLACE, "when": _WHEN}
"""Where a way counts."""


def words_held(job: Job, line: JobLine) -> list[str]:
    """All that a job is found by, in the order of code points."""
    return words_in(text_values(job, line))


def words_in(texts: Mapping[str, str]) -> list[str]:
    """The same from the texts that `text_values` gives."""
    words = {name: texts[name].split() for name in ("client", "place", "other")}
    held = {f"{ANYWHERE}{word}" for each in words.values() for word in each}
    held |= {f"{CLIENT}{word}" for word in words["client"]}
    held |= {f"{PLACE}{word}" for word in words["place"]}
    return sorted(held | set(texts["facets"].split()))


def words_asked(query: Query) -> list[Either]:
    """The words a query asks for, all of them; none where it asks for no words."""
    facets = facets_of(
        query.form_set, query.state, query.outcome, open_snags=query.open_snags, number=joined(query.number)
    )
    asked = [Lexeme(facet) for facet in facets]
    if query.year is not None:
        asked.append(Lexeme(f"zy{query.year}"))
    for where, text in (
        (ANYWHERE, query.words),
        (CLIENT, query.client),
        (PLACE, query.place),
        (_ENGINEER, query.engineer),
    ):
        words = words_of(text)[:WORDS_ASKED_MAX]
        asked += [Lexeme(where + word, at == len(words)) for at, word in enumerate(words, 1)]
    return [(lexeme,) for lexeme in asked]


def ways_asked(ways: Sequence[Sought]) -> Either:
    """One of several ways in which a thing may be written."""
    return tuple(Lexeme(_IN[way.column] + way.text, way.begun) for way in ways)


def in_index(asked: Iterable[Either]) -> str:
    """What is asked in the index's own language. Nothing typed reaches it but letters and digits."""
    return " & ".join(f"({' | '.join(map(_quoted, either))})" for either in asked)


def findable_in(held: Sequence[str]) -> Findable:
    """What a job is found by, from what the index holds of it."""
    client = tuple([word[1:] for word in held if word[0] == CLIENT])
    place = tuple([word[1:] for word in held if word[0] == PLACE])
    named = {*client, *place}
    facets = [word for word in held if word[0] == "z"]
    return Findable(
        client,
        place,
        tuple([word[1:] for word in held if word[0] == ANYWHERE and word[1:] not in named]),
        tuple([word.removeprefix(_ENGINEER) for word in facets if word.startswith(_ENGINEER)]),
        tuple([word.removeprefix(_WHEN) for word in facets if word.startswith(_WHEN)]),
    )


def _quoted(lexeme: Lexeme) -> str:
    return f"'{lexeme.word[:_LONGEST]}'{':*' if lexeme.begun else ''}"
