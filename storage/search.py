"""How the log is searched: the words kept for each job, and the statement for a query."""

from typing import Any

from domain.form_set import FormSet
from domain.gate import Outcome
from domain.job import Job
from domain.job_log import JobLine, Query, State
from domain.log_line import findable
from domain.search_words import joined, words_of
from storage.rows import LINE_COLUMNS

WORDS_ASKED_MAX = 12
WINDOW = 1000
"""Among jobs found by words, so many of the newest begun are put in order."""
_ANYWHERE = "{client place other}"
_LISTS: dict[str, str] = {
    "form_set": "form_set = :form_set",
    "state": "state = :state",
    "outcome": "outcome = :outcome",
    "open_snags": "open_snags > 0",
}
_NEXT_PAGE = "(updated, id) < (:before_updated, :before_id)"
_NEWEST_FIRST = "ORDER BY updated DESC, id DESC LIMIT :limit"


def text_values(job: Job, line: JobLine) -> dict[str, str]:
    """What the search index holds of a job."""
    words = findable(job)
    return {
        "client": " ".join(words.client),
        "place": " ".join(words.place),
        "other": " ".join(words.other),
        "facets": " ".join(
            facets_of(line.form_set, line.state, line.outcome, open_snags=line.open_snags > 0, number=line.number)
        ),
    }


def facets_of(
    form_set: FormSet | None, state: State | None, outcome: Outcome | None, *, open_snags: bool | None, number: str
) -> tuple[str, ...]:
    """Filters as words of their own, so that the index answers words and filters at once."""
    kinds = {"f": form_set, "t": state, "o": outcome}
    facets = [f"z{kind}{value.value.casefold()}" for kind, value in kinds.items() if value]
    if open_snags is not None:
        facets.append("zs1" if open_snags else "zs0")
    if number:
        facets.append(f"zn{joined(number)}")
    return tuple(facets)


def statement_for(query: Query, before: tuple[int, int] | None) -> tuple[str, dict[str, Any]]:
    """The statement that lists what a query asks for, after the row whose (updated, id) is `before`."""
    values: dict[str, Any] = {"limit": query.limit}
    conditions: list[str] = []
    if before:
        conditions.append(_NEXT_PAGE)
        values |= {"before_updated": before[0], "before_id": before[1]}
    source = "job"
    if listed := _fixed_list(query):
        conditions.insert(0, _LISTS[listed])
        values[listed] = getattr(query, listed)
    elif match := match_for(query):
        # CROSS JOIN keeps the planner from walking the whole log to spare itself a small sort.
        source = (
            "(SELECT rowid AS hit FROM job_fts WHERE job_fts MATCH :match ORDER BY rowid DESC LIMIT :window)"
            " CROSS JOIN job ON job.id = hit"
        )
        values |= {"match": match, "window": max(WINDOW, query.limit)}
    where = f"WHERE {' AND '.join(conditions)} " if conditions else ""
    return f"SELECT {LINE_COLUMNS} FROM {source} {where}{_NEWEST_FIRST}", values


def _fixed_list(query: Query) -> str:
    if words_of(f"{query.words} {query.client} {query.place} {query.number}") or query.open_snags is False:
        return ""
    asked = [name for name in _LISTS if getattr(query, name) is not None]
    return asked[0] if len(asked) == 1 else ""


def match_for(query: Query) -> str:
    """The query in the index's own language; nothing a person typed reaches it unquoted."""
    facets = facets_of(
        query.form_set, query.state, query.outcome, open_snags=query.open_snags, number=joined(query.number)
    )
    parts = [
        f"{column} : ({asked})"
        for column, text in ((_ANYWHERE, query.words), ("client", query.client), ("place", query.place))
        if (asked := _all_words(text))
    ]
    if facets:
        parts.append(f"facets : ({' AND '.join(_quoted(facet) for facet in facets)})")
    return " AND ".join(parts)


def _all_words(text: str) -> str:
    words = words_of(text)[:WORDS_ASKED_MAX]
    if not words:
        return ""
    return " AND ".join([*(_quoted(word) for word in words[:-1]), f"{_quoted(words[-1])} *"])


def _quoted(word: str) -> str:
    return f'"{word}"'
