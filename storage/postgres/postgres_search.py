"""How a log on a server is searched: by its lines where they tell, by the index of words where words are asked for.

The index of words gives no order. So the newest jobs are looked through first, for common words are among them; then the
index is asked for all that hold the words, and only where those are many is more of the log walked, from the newest back.
"""

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple, Self

from domain.log.job_log import JobLine, Query, no_such_job
from domain.log.log_line import Findable
from domain.log.sought import Sought
from storage.line_rows import LINE_COLUMNS, line_from
from storage.postgres.log_server import LogServer, Row
from storage.postgres.words import any_of, findable_in, words_asked
from storage.search import LISTS, OPEN, SEEN, TO_PUT_RIGHT, fixed_list

_LINE = ", ".join(f"job.{column}" for column in LINE_COLUMNS.split(", "))
_NEWEST, _FURTHER = 300, 20_000
"""So many of the newest jobs are looked through before the index is asked, and once it holds too many."""
_FEW = 3_000
"""So many jobs that hold the words are put in order one by one."""
_SEEN_AND_OPEN = (
    f"state = 'draft' AND {OPEN} AND job.id IN (SELECT job_id FROM job_text WHERE words @@ '{SEEN}'::tsquery)"
)
"""Another firm's report, of which something is left to put right."""
_HOLDS = "job_text.words @@ %(words)s::tsquery"


class _Page(NamedTuple):
    """What of a list is asked for: what holds of each line, and the order."""

    order: tuple[str, str]
    way: str
    conditions: tuple[str, ...]
    values: dict[str, Any]

    def of(self, source: str) -> str:
        """The statement that lists it."""
        where = f"WHERE {' AND '.join(self.conditions)}" if self.conditions else ""
        ordered = ", ".join(f"{column}{self.way}" for column in self.order)
        return f"SELECT {_LINE} FROM {source} {where} ORDER BY {ordered} LIMIT %(limit)s"

    def also(self, condition: str) -> Self:
        """The same, where something more must hold."""
        return self._replace(conditions=(*self.conditions, condition))


def found(server: LogServer, query: Query, sought: Sequence[Sequence[Sought]] = ()) -> tuple[JobLine, ...]:
    """What an understood query asks for, the one touched last first; what is due, soonest first.

    Of each of `sought` a job holds one, besides.
    """
    listed = "" if sought else fixed_list(query)
    words = "" if listed else " & ".join(filter(None, (words_asked(query), *map(any_of, sought))))
    page = _page(server, query, words)
    if listed:
        page = page.also(LISTS[listed].replace(f":{listed}", f"%({listed})s"))
    if words:
        return tuple(map(line_from, _holding(server, page)))
    return tuple(map(line_from, server.run(page.of("job"), page.values)))


def counted(server: LogServer, ways: Sequence[Sought], most: int) -> int:
    """How many jobs hold one of these; no more than `most` are counted."""
    ((jobs,),) = server.run(
        f"SELECT count(*) FROM (SELECT 1 FROM job_text WHERE {_HOLDS} LIMIT %(most)s) AS held",
        {"words": any_of(ways), "most": most},
    )
    return jobs


def held(server: LogServer, numbers: Sequence[str]) -> Mapping[str, Findable]:
    """What each of these jobs is found by."""
    rows = server.run(
        "SELECT number, tsvector_to_array(words) FROM job JOIN job_text ON job_id = id WHERE number = ANY(%s)",
        ([*numbers],),
    )
    return {number: findable_in(words) for number, words in rows}


def _page(server: LogServer, query: Query, words: str) -> _Page:
    conditions: list[str] = [f"laid_aside = {int(query.laid_aside)}"]
    values: dict[str, Any] = {"limit": query.limit, "words": words, "hand": query.hand}
    values |= {name: str(value) for name in ("form_set", "state", "outcome") if (value := getattr(query, name))}
    soonest_first = query.due_before is not None
    if query.due_before is not None:
        conditions.append("due <= %(due)s")
        values["due"] = query.due_before.toordinal()
    if query.to_put_right:
        conditions.append(f"({TO_PUT_RIGHT} OR {_SEEN_AND_OPEN})")
    if query.hand:
        conditions.append("EXISTS (SELECT 1 FROM hand WHERE hand.job_id = job.id AND hand.who = %(hand)s)")
    order = ("due" if soonest_first else "job.updated", "job.id")
    if query.before:
        row = None
        if "\0" not in query.before:
            row = server.first("SELECT updated, due, id FROM job WHERE number = %s", (query.before,))
        if row is None:
            raise no_such_job(query.before)
        conditions.append(f"({order[0]}, {order[1]}) {'>' if soonest_first else '<'} (%(before)s, %(before_id)s)")
        values |= {"before": row[1] if soonest_first else row[0], "before_id": row[2]}
    return _Page(order, "" if soonest_first else " DESC", tuple(conditions), values)


def _holding(server: LogServer, page: _Page) -> list[Row]:
    """The lines of jobs that hold the words."""
    limit = page.values["limit"]
    if page.way and len(rows := _among_newest(server, page, _NEWEST)) == limit:
        return rows
    held = server.run(f"SELECT job_id FROM job_text WHERE {_HOLDS} LIMIT {_FEW + 1}", page.values)
    if len(held) <= _FEW:
        one_by_one = page.also("job.id = ANY(%(held)s)")
        return server.run(one_by_one.of("job"), page.values | {"held": [row[0] for row in held]})
    if page.way and len(rows := _among_newest(server, page, _FURTHER)) == limit:
        return rows
    return server.run(
        page.of(f"(SELECT job_id FROM job_text WHERE {_HOLDS}) AS hit JOIN job ON job.id = job_id"), page.values
    )


def _among_newest(server: LogServer, page: _Page, count: int) -> list[Row]:
    """Those that hold the words among the newest jobs from where the page begins."""
    newest = page.of("job").replace(f"SELECT {_LINE}", "SELECT job.*")
    values = page.values | {"asked": page.values["limit"], "limit": count}
    return server.run(
        f"SELECT {_LINE} FROM ({newest}) AS job JOIN job_text ON job_text.job_id = job.id WHERE {_HOLDS}"
        " ORDER BY job.updated DESC, job.id DESC LIMIT %(asked)s",
        values,
    )
