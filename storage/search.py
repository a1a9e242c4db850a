"""How the log is searched: filters as words of their own, and the statement for a query."""

from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

from domain.forms.form_set import FormSet
from domain.gate.outcome import Outcome
from domain.log.job_log import Query, State
from domain.log.sought import Sought
from domain.words import joined, words_of
from storage.line_rows import LINE_COLUMNS

WORDS_ASKED_MAX = 12
WINDOW = 1000
"""Among jobs found by words, so many of the newest begun are put in order; for short lists fewer."""
_WINDOW_LINES = 20
"""Of each line listed so many."""
WordsBegun = Callable[[str], Sequence[str] | None]
"""The words of the log that begin so; None where that is not known, or they are too many to name."""
_ANYWHERE = "{client place other}"
WHEN = "zw"
"""Before the words of the days of a job."""
_LINE = ", ".join(f"job.{column}" for column in LINE_COLUMNS.split(", "))
LISTS: dict[str, str] = {
    "form_set": "form_set = :form_set",
    "state": "state = :state",
    "outcome": "outcome = :outcome",
    "open_snags": "open_snags > 0",
}
OPEN = "outcome IN ('unsatisfactory', 'satisfactory+FI') AND put_right = 0"
TO_PUT_RIGHT = f"state = 'issued' AND {OPEN}"
SEEN = "zxseen"
"""Among the filters in the index: another firm's report, seen elsewhere, which is a draft for good."""
_IS_SEEN = "job.id IN (SELECT rowid FROM job_fts WHERE job_fts MATCH :seen)"
_TO_PUT_RIGHT_HERE = f"(state = 'issued' OR state = 'draft' AND {_IS_SEEN}) AND {OPEN}"
_BY_HAND = "EXISTS (SELECT 1 FROM hand WHERE hand.job_id = job.id AND hand.who = :hand)"


class PageEnd(NamedTuple):
    """Where a page of a list ended."""

    updated: int
    id: int
    due: int | None


def facets_of(
    form_set: FormSet | None, state: State | None, outcome: Outcome | None, *, open_snags: bool | None, number: str
) -> tuple[str, ...]:
    """Filters as words of their own, so that the index answers words and filters at once."""
    kinds = {"f": form_set, "t": state, "o": outcome}
    facets = [f"z{kind}{joined(value.value)}" for kind, value in kinds.items() if value]
    if open_snags is not None:
        facets.append("zs1" if open_snags else "zs0")
    if number:
        facets.append(f"zn{joined(number)}")
    return tuple(facets)


def statement_for(
    query: Query, before: PageEnd | None, begun: WordsBegun, sought: Sequence[Sequence[Sought]] = ()
) -> tuple[str, dict[str, Any]]:
    """The statement that lists what a query asks for, and one of each of `sought` besides, after where a page ended."""
    values: dict[str, Any] = {"limit": query.limit}
    source, order, conditions = _source(query, before, values, begun, sought)
    if query.due_before is not None:
        conditions.append("due <= :due")
        values["due"] = query.due_before.toordinal()
        order = ("due", "job.id")
    conditions.append(f"job.laid_aside = {int(query.laid_aside)}")
    soonest_first = query.due_before is not None
    if before:
        conditions.append(f"({', '.join(order)}) {'>' if soonest_first else '<'} (:before, :before_id)")
        values |= {"before": before.due if soonest_first else before.updated, "before_id": before.id}
    way = "" if soonest_first else " DESC"
    ordered = f"ORDER BY {order[0]}{way}, {order[1]}{way} LIMIT :limit"
    return f"SELECT {_LINE} FROM {source} WHERE {' AND '.join(conditions)} {ordered}", values


def _source(
    query: Query,
    before: PageEnd | None,
    values: dict[str, Any],
    begun: WordsBegun,
    sought: Sequence[Sequence[Sought]],
) -> tuple[str, tuple[str, str], list[str]]:
    """Where a list is read from, what it is in the order of, and what holds of it."""
    newest_first = ("job.updated", "job.id")
    if not sought and (listed := fixed_list(query)):
        values[listed] = getattr(query, listed)
        return "job", newest_first, [LISTS[listed]]
    by_hand = [_BY_HAND] if query.hand else []
    to_put_right = [_TO_PUT_RIGHT_HERE] if query.to_put_right else []
    values |= ({"hand": query.hand} if by_hand else {}) | ({"seen": f"facets : {quoted(SEEN)}"} if to_put_right else {})
    if match := " AND ".join(filter(None, (match_for(query, begun), *(any_of(ways, begun) for ways in sought)))):
        values |= {"match": match, "window": max(min(WINDOW, query.limit * _WINDOW_LINES), query.limit)}
        # CROSS JOIN keeps the planner from walking the whole log to spare itself a small sort.
        words = "SELECT rowid AS hit FROM job_fts WHERE job_fts MATCH :match ORDER BY rowid DESC LIMIT :window"
        return f"({words}) CROSS JOIN job ON job.id = hit", newest_first, by_hand + to_put_right
    if by_hand and query.due_before is None and not to_put_right:
        return "hand CROSS JOIN job ON job.id = hand.job_id", ("hand.updated", "hand.job_id"), ["hand.who = :hand"]
    if to_put_right and query.due_before is None:
        return _put_right_source(query, before), newest_first, by_hand
    return "job", newest_first, by_hand + to_put_right


def _put_right_source(query: Query, before: PageEnd | None) -> str:
    """The reports of this log, a page of them in the order of their index, and all that were seen elsewhere, which are few."""
    after = "AND (updated, id) < (:before, :before_id)" if before else ""
    page = "" if query.hand else "ORDER BY updated DESC, id DESC LIMIT :limit"
    # The planner would rather walk all unsatisfactory ones, drafts among them.
    issued = f"SELECT id AS hit FROM job INDEXED BY job_to_put_right WHERE state = 'issued' AND {OPEN} {after} {page}"
    seen = f"SELECT job.id FROM job_fts CROSS JOIN job ON job.id = job_fts.rowid WHERE job_fts MATCH :seen AND state = 'draft' AND {OPEN}"
    return f"(SELECT * FROM ({issued}) UNION ALL {seen}) CROSS JOIN job ON job.id = hit"


def fixed_list(query: Query) -> str:
    """The one filter by which lines alone answer; "" where there are more, or words."""
    others = (
        query.laid_aside
        or query.due_before
        or query.hand
        or query.to_put_right
        or query.year
        or query.open_snags is False
    )
    if others or words_of(f"{query.words} {query.client} {query.place} {query.number} {query.engineer}"):
        return ""
    asked = [name for name in LISTS if getattr(query, name) is not None]
    return asked[0] if len(asked) == 1 else ""


def match_for(query: Query, begun: WordsBegun) -> str:
    """The query in the index's own language; nothing a person typed reaches it unquoted."""
    facets = facets_of(
        query.form_set, query.state, query.outcome, open_snags=query.open_snags, number=joined(query.number)
    )
    parts = [
        f"{column} : ({asked})"
        for column, text in ((_ANYWHERE, query.words), ("client", query.client), ("place", query.place))
        if (asked := _all_words(text, begun))
    ]
    asked = [quoted(facet) for facet in facets]
    if query.year is not None:
        asked.append(quoted(f"zy{query.year}"))
    if names := words_of(query.engineer)[:WORDS_ASKED_MAX]:
        asked += [quoted(f"ze{name}") for name in names[:-1]] + [_begun_with(f"ze{names[-1]}", begun)]
    if asked:
        parts.append(f"facets : ({' AND '.join(asked)})")
    return " AND ".join(parts)


def _all_words(text: str, begun: WordsBegun) -> str:
    words = words_of(text)[:WORDS_ASKED_MAX]
    if not words:
        return ""
    return " AND ".join([*(quoted(word) for word in words[:-1]), _begun_with(words[-1], begun)])


def _begun_with(word: str, begun: WordsBegun) -> str:
    # The index gathers every job that holds a word so begun before it gives the first; words by name it gives at once.
    known = begun(word)
    return f"{quoted(word)} *" if known is None else f"({' OR '.join(quoted(each) for each in (word, *known))})"


def quoted(word: str) -> str:
    """A folded word as the index reads it."""
    return f'"{word}"'


def any_of(ways: Sequence[Sought], begun: WordsBegun) -> str:
    """One of several ways in which a thing may be written, in the index's own language."""
    by_column: dict[str, list[str]] = {}
    for way in ways:
        column = {"": _ANYWHERE, "when": "facets"}.get(way.column, way.column)
        text = f"{WHEN}{way.text}" if way.column == "when" else way.text
        by_column.setdefault(column, []).append(_begun_with(text, begun) if way.begun else quoted(text))
    parts = [f"{column} : ({' OR '.join(texts)})" for column, texts in by_column.items()]
    return f"({' OR '.join(parts)})"
