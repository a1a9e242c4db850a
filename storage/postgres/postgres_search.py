"""How a log on a server is searched: by its lines where they tell, by the index of words where words are asked for.

The index of words gives no order, and gathers every job that holds a word before it gives the first. So it is asked for
what few jobs hold; the rest of what was asked is looked for in those few. Where all of it is common, the newest jobs are
looked through instead, as many as it takes.
"""

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple, Self

from domain.log.job_log import JobLine, Query, no_such_job
from domain.log.log_line import Findable
from domain.log.sought import Sought
from storage.line_rows import LINE_COLUMNS, line_from
from storage.postgres.commonness import Commonness, Either
from storage.postgres.log_server import LogServer
from storage.postgres.server_lines import Row
from storage.postgres.words import findable_in, in_index, ways_asked, words_asked
from storage.search import LISTS, OPEN, SEEN, TO_PUT_RIGHT, fixed_list

_STRANGE = """job.state IN ('issued', 'replaced') AND (
    SELECT ledger.seq FROM issued JOIN ledger ON ledger.kind = 'issued' AND ledger.row = issued.seq
    WHERE issued.job_id = job.id) IS NULL"""
"""Shown as issued, and never entered in the ledger. Asked otherwise, the server might gather all that were."""
_LINE = f"{', '.join(f'job.{column}' for column in LINE_COLUMNS.split(', '))}, {_STRANGE} AS strange"
_UPDATED = LINE_COLUMNS.split(", ").index("updated")
_NEWEST, _FURTHER = 300, 8_000
"""So many of the newest jobs are looked through first, and at most."""
_TELLING = 3
"""So many found tell how far to look for the rest."""
_FEW = 3_000
"""So many jobs that hold the words are put in order one by one."""
_MANY, _BEGUN_LAST = 10_000, 1_000
"""Of more, so many of those begun last, where they are not found among the jobs touched last; of too many, by another way."""
_SHORT = 6
"""Letters of a beginning, with the one for where it stands."""
_BY_FAR = 20
"""So many times as common as the rarest."""
_HOLDS = "job_text.words @@ %(words)s::tsquery"
_PUT_RIGHT = f"""(
    SELECT * FROM (SELECT * FROM job WHERE {TO_PUT_RIGHT} AND {{after}} ORDER BY updated DESC, id DESC {{page}}) AS issued
    UNION ALL SELECT job.* FROM job WHERE state = 'draft' AND {OPEN} AND id = ANY(ARRAY(
        SELECT job_id FROM job_text WHERE words @@ '{SEEN}'::tsquery))) AS job"""
"""What is left to put right: reports of this log in the order of their index, and those seen elsewhere, which are few."""


class _Page(NamedTuple):
    """What of a list is asked for: from where, what holds of each line, and the order."""

    source: str
    order: tuple[str, str]
    way: str
    conditions: tuple[str, ...]
    limit: int
    values: dict[str, Any]

    def of(self, columns: str, source: str = "") -> str:
        """The statement that lists it."""
        where = f"WHERE {' AND '.join(self.conditions)}" if self.conditions else ""
        ordered = ", ".join(f"{column}{self.way}" for column in self.order)
        return f"SELECT {columns} FROM {source or self.source} {where} ORDER BY {ordered} LIMIT %(limit)s"

    def also(self, condition: str) -> Self:
        """The same, where something more must hold."""
        return self._replace(conditions=(*self.conditions, condition))


def found(server: LogServer, known: Commonness, query: Query, sought: Sequence[Sequence[Sought]] = ()) -> list[JobLine]:
    """What an understood query asks for, the one touched last first; what is due, soonest first.

    Of each of `sought` a job holds one, besides. Lines are marked that the log shows as issued and this program never issued.
    """
    listed = "" if sought else fixed_list(query)
    asked = [] if listed else [*words_asked(query), *map(ways_asked, sought)]
    page = _page(query, has_words=bool(asked))
    if listed:
        page = page.also(LISTS[listed].replace(f":{listed}", f"%({listed})s"))
    rows = _holding(server, known, page, asked) if asked else server.run(page.of(_LINE), page.values)
    if not rows and query.before and not _is_there(server, query.before):
        raise no_such_job(query.before)
    lines = ((line_from(tuple(line)), is_strange) for *line, is_strange in rows)
    return [line.model_copy(update={"vouched": False}) if is_strange else line for line, is_strange in lines]


def counted(server: LogServer, known: Commonness, things: Sequence[Sequence[Sought]], most: int) -> tuple[int, ...]:
    """How many jobs hold one of the ways of each thing; no more than `most` are counted. All in one journey."""
    asked = [ways_asked(ways) for ways in things]
    unknown = [either for either in asked if not known.surely(either, most)]
    statement = f"SELECT count(*) FROM (SELECT 1 FROM job_text WHERE {_HOLDS} LIMIT %(most)s) AS held"
    answers = (
        server.answers(*((statement, {"words": in_index([each]), "most": most}) for each in unknown)) if unknown else ()
    )
    counts = {either: rows[0][0] for either, rows in zip(unknown, answers, strict=True)}
    return tuple(counts.get(either, most) for either in asked)


def held(server: LogServer, numbers: Sequence[str]) -> Mapping[str, Findable]:
    """What each of these jobs is found by."""
    rows = server.run(
        "SELECT number, tsvector_to_array(words) FROM job JOIN job_text ON job_id = id WHERE number = ANY(%s)",
        ([*numbers],),
    )
    return {number: findable_in(words) for number, words in rows}


def _is_there(server: LogServer, number: str) -> bool:
    return "\0" not in number and bool(server.run("SELECT 1 FROM job WHERE number = %s", (number,)))


def _page(query: Query, *, has_words: bool) -> _Page:
    conditions: list[str] = [f"laid_aside = {int(query.laid_aside)}"]
    values: dict[str, Any] = {"limit": query.limit, "hand": query.hand}
    values |= {name: str(value) for name in ("form_set", "state", "outcome") if (value := getattr(query, name))}
    source, soonest_first = "job", query.due_before is not None
    order = ("due" if soonest_first else "job.updated", "job.id")
    if query.due_before is not None:
        conditions.append("due <= %(due)s")
        values["due"] = query.due_before.toordinal()
    after = "true"
    if query.before:
        at = "(SELECT {} FROM job WHERE number = %(before)s)"
        ended = f"{at.format('due' if soonest_first else 'updated')}, {at.format('id')}"
        after = f"({{}}, {{}}) {'>' if soonest_first else '<'} ({ended})"
        values["before"] = "" if "\0" in query.before else query.before
    if query.to_put_right and not has_words and not soonest_first:
        few = "" if query.hand else "LIMIT %(limit)s"
        source = _PUT_RIGHT.format(after=after.format("updated", "id"), page=few)
    elif query.to_put_right:
        source = _PUT_RIGHT.format(after="true", page="")
    if query.hand and not (has_words or soonest_first or query.to_put_right):
        source, order = "hand JOIN job ON job.id = hand.job_id", ("hand.updated", "hand.job_id")
        conditions.append("hand.who = %(hand)s")
    elif query.hand:
        conditions.append("EXISTS (SELECT 1 FROM hand WHERE hand.job_id = job.id AND hand.who = %(hand)s)")
    if query.before:
        conditions.append(after.format(*order))
    return _Page(source, order, "" if soonest_first else " DESC", tuple(conditions), query.limit, values)


def _holding(server: LogServer, known: Commonness, page: _Page, asked: Sequence[Either]) -> list[Row]:
    """The lines of jobs that hold all that is asked."""
    page = page._replace(values=page.values | {"words": in_index(asked)})
    few = [either for either in asked if known.about(either) <= _FEW]
    # A short beginning may stand for very many words, and the index would gather all of them.
    surely_few = [either for either in few if all(len(each.word) > _SHORT or not each.begun for each in either)]
    first = surely_few or (few if not page.way else [])
    hits, rows = _among_few(server, page, asked, first) if first else (_MANY + 1, [])
    if hits <= _FEW:
        return rows
    if not page.way:
        # In the order of what is due, so many hold it that the first are soon found.
        holds = f"(SELECT {_HOLDS} FROM job_text WHERE job_text.job_id = job.id)"
        return server.run(page.also(holds).of(_LINE), page.values)
    newest = _among_newest(server, page)
    if len(newest) == page.limit:
        return newest
    rarest = few or _rarest(known, asked)
    if not first:
        hits, rows = _among_few(server, page, asked, rarest)
    if hits > _MANY:
        rows = _begun_last(server, page, rarest)
    return rows if hits <= _FEW or "before" in page.values else _newest_of(page, rows, newest)


def _rarest(known: Commonness, asked: Sequence[Either]) -> list[Either]:
    """What is asked without what is commoner by far than the rest: the index would gather all of that."""
    least = min(map(known.about, asked))
    return [either for either in asked if known.about(either) <= _BY_FAR * least]


def _begun_last(server: LogServer, page: _Page, rarest: Sequence[Either]) -> list[Row]:
    """Of very many jobs that hold the words, those begun last."""
    bounds = "" if "before" in page.values else f"ORDER BY job_id DESC LIMIT {_BEGUN_LAST}"
    lines = page.also("job.id = ANY(ARRAY(SELECT job_id FROM hit))").of(_LINE)
    return server.run(
        "WITH hit AS MATERIALIZED (SELECT job_id FROM (SELECT job_id, words FROM job_text"
        " WHERE words @@ %(rarest)s::tsquery OFFSET 0) AS held"
        f" WHERE words @@ %(words)s::tsquery {bounds}) {lines}",
        page.values | {"rarest": in_index(rarest)},
    )


def _newest_of(page: _Page, rows: Sequence[Row], newest: Sequence[Row]) -> list[Row]:
    """Jobs begun last, and those touched last: one begun long ago may have been touched today."""
    found = {row[0]: row for row in (*rows, *newest)}
    return sorted(found.values(), key=lambda row: row[_UPDATED], reverse=True)[: page.limit]


def _among_few(server: LogServer, page: _Page, asked: Sequence[Either], few: Sequence[Either]) -> tuple[int, list[Row]]:
    """How many jobs hold what few do, and the lines of those that hold all that is asked; none where they are too many.

    Of more than a few, those that were begun last, but where a list is gone through to its end.
    """
    all_of_it = "true" if len(few) == len(asked) else "words @@ %(words)s::tsquery"
    bounds = ""
    if page.way and "before" not in page.values:
        bounds = f"ORDER BY job_id DESC LIMIT CASE WHEN (SELECT count(*) FROM hit) > {_FEW} THEN {_BEGUN_LAST} END"
    lines = page.also(f"job.id = ANY(ARRAY(SELECT job_id FROM hit WHERE holds {bounds}))").of(_LINE)
    rows = server.run(
        f"WITH hit AS MATERIALIZED (SELECT job_id, {all_of_it} AS holds FROM job_text"
        f" WHERE words @@ %(few)s::tsquery LIMIT {_MANY + 1})"
        f" SELECT counted.hits, listed.* FROM (SELECT count(*) AS hits FROM hit) AS counted"
        f" LEFT JOIN LATERAL ({lines}) AS listed ON counted.hits <= {_MANY}",
        page.values | {"few": in_index(few)},
    )
    return rows[0][0], [tuple(row) for _, *row in rows if row[0] is not None]


def _among_newest(server: LogServer, page: _Page) -> list[Row]:
    """The first that hold the words among the newest jobs, from where the page begins; fewer than asked, where there are no more."""
    limit, count = page.limit, _NEWEST
    rows: list[Row] = []
    while count:
        newest = page.of("job.*")
        rows = server.run(
            f"SELECT {_LINE} FROM ({newest}) AS job CROSS JOIN LATERAL (SELECT 1 FROM job_text"
            f" WHERE job_text.job_id = job.id AND {_HOLDS} OFFSET 0) AS holding"
            " ORDER BY job.updated DESC, job.id DESC LIMIT %(asked)s",
            page.values | {"asked": limit, "limit": count},
        )
        further = 3 * count * limit // (2 * len(rows)) if _TELLING <= len(rows) < limit else 0
        count = further if count < further <= _FURTHER else 0
    return rows
