"""The words that jobs hold, as an index of a server has them: each with a letter of where it stands."""

from collections.abc import Iterable, Sequence

from domain.job.job import Job
from domain.log.job_log import JobLine, Query
from domain.log.log_line import Findable
from domain.log.sought import Sought
from domain.words import joined, words_of
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
    texts = text_values(job, line)
    words = {name: texts[name].split() for name in ("client", "place", "other")}
    held = {f"{ANYWHERE}{word}" for each in words.values() for word in each}
    held |= {f"{CLIENT}{word}" for word in words["client"]}
    held |= {f"{PLACE}{word}" for word in words["place"]}
    return sorted(held | set(texts["facets"].split()))


def words_asked(query: Query) -> str:
    """A query in the index's own language; "" where it asks for no words. Nothing typed reaches it but letters and digits."""
    facets = facets_of(
        query.form_set, query.state, query.outcome, open_snags=query.open_snags, number=joined(query.number)
    )
    asked = [_quoted(facet) for facet in facets]
    if query.year is not None:
        asked.append(_quoted(f"zy{query.year}"))
    for where, text in (
        (ANYWHERE, query.words),
        (CLIENT, query.client),
        (PLACE, query.place),
        (_ENGINEER, query.engineer),
    ):
        asked += _all_words(where, words_of(text)[:WORDS_ASKED_MAX])
    return " & ".join(asked)


def any_of(ways: Sequence[Sought]) -> str:
    """One of several ways in which a thing may be written."""
    return f"({' | '.join(_quoted(_IN[way.column] + way.text) + (':*' if way.begun else '') for way in ways)})"


def findable_in(held: Iterable[str]) -> Findable:
    """What a job is found by, from what the index holds of it."""
    by_place: dict[str, list[str]] = {mark: [] for mark in (ANYWHERE, CLIENT, PLACE, _ENGINEER, _WHEN)}
    for word in held:
        for mark, words in by_place.items():
            if word.startswith(mark):
                words.append(word.removeprefix(mark))
    named = {*by_place[CLIENT], *by_place[PLACE]}
    other = tuple(word for word in by_place[ANYWHERE] if word not in named)
    return Findable(
        tuple(by_place[CLIENT]), tuple(by_place[PLACE]), other, tuple(by_place[_ENGINEER]), tuple(by_place[_WHEN])
    )


def _all_words(where: str, words: list[str] | tuple[str, ...]) -> Iterable[str]:
    for at, word in enumerate(words, 1):
        yield f"{_quoted(where + word)}{':*' if at == len(words) else ''}"


def _quoted(word: str) -> str:
    return f"'{word[:_LONGEST]}'"
