"""No list of the log walks all jobs or sorts them."""

from contextlib import closing
from datetime import date

import pytest

from domain.forms.form_set import FormSet
from domain.gate.outcome import Outcome
from domain.log.job_log import Query, State
from storage.driver import sqlite3
from storage.log_file import FILE_NAME
from storage.search import WINDOW, PageEnd, statement_for
from storage.sqlite_job_log import SqliteJobLog
from tests.ladder.many_jobs import PEOPLE, fill

JOBS = 4_000
FEW = 3_000
"""Steps of SQLite's machine that one page of a list may take; to look at every job takes four times as many and more."""
FIXED_LISTS = {
    "newest": Query(),
    "of a form set": Query(form_set=FormSet.EIC),
    "in a state": Query(state=State.READY),
    "with an outcome": Query(outcome=Outcome.UNSATISFACTORY),
    "with open snags": Query(open_snags=True),
    "due": Query(due_before=date(2027, 3, 2)),
}
TO_PUT_RIGHT = Query(to_put_right=True)
SEARCHES = {
    "words": Query(words="zoe fairw"),
    "client": Query(client="zoe"),
    "place": Query(place="wq7"),
    "number": Query(number="A-0003"),
    "two filters": Query(state=State.DRAFT, form_set=FormSet.EICR),
    "no open snags": Query(open_snags=False),
    "words and filters": Query(words="zoe", outcome=Outcome.COMPLIES),
    "engineer": Query(engineer="tamsin orch"),
    "year": Query(year=2026),
    "words and due": Query(words="zoe", due_before=date(2027, 3, 2)),
    "words and hand": Query(words="zoe", hand="tamsin"),
}


def nothing_known(beginning: str) -> None:
    """No word is named to the index; the plan is the same."""


@pytest.fixture(scope="module")
def many(tmp_path_factory):
    """The folder of a log of four thousand jobs."""
    home = tmp_path_factory.mktemp("many") / "log"
    fill(home, JOBS)
    return home


@pytest.fixture
def plan_of(many):
    connection = sqlite3.connect(many / FILE_NAME)

    def plan(query: Query, before: PageEnd | None) -> list[str]:
        statement, values = statement_for(query, before, nothing_known)
        return [row[3] for row in connection.execute(f"EXPLAIN QUERY PLAN {statement}", values).fetchall()]

    yield plan
    connection.close()


@pytest.mark.parametrize("before", [None, PageEnd(5, 5, 5)], ids=["first page", "next page"])
@pytest.mark.parametrize("query", FIXED_LISTS.values(), ids=FIXED_LISTS)
def test_a_fixed_list_is_read_in_the_order_of_its_index(plan_of, query, before):
    steps = plan_of(query, before)
    assert len(steps) == 1
    assert "USING INDEX job_" in steps[0]


@pytest.mark.parametrize("before", [None, PageEnd(5, 5, 5)], ids=["first page", "next page"])
def test_what_is_to_be_put_right_is_read_by_its_index_and_by_the_mark_of_what_was_seen_elsewhere(plan_of, before):
    steps = plan_of(TO_PUT_RIGHT, before)
    assert any("job_to_put_right" in step for step in steps)
    assert any("VIRTUAL TABLE INDEX" in step for step in steps)
    assert not any(
        step.startswith("SCAN job ") or step == "SCAN job" for step in steps if "job_to_put_right" not in step
    )


@pytest.mark.parametrize("before", [None, PageEnd(5, 5, 5)], ids=["first page", "next page"])
@pytest.mark.parametrize("query", SEARCHES.values(), ids=SEARCHES)
def test_a_search_starts_from_the_words_and_takes_jobs_by_their_key(plan_of, query, before):
    steps = plan_of(query, before)
    assert any("VIRTUAL TABLE INDEX" in step for step in steps)
    assert any(step.startswith("SEARCH job USING INTEGER PRIMARY KEY") for step in steps)
    assert not any(step.startswith("SCAN job ") or step == "SCAN job" for step in steps)


@pytest.mark.parametrize("before", [None, PageEnd(5, 5, 5)], ids=["first page", "next page"])
def test_the_jobs_somebody_had_a_hand_in_are_read_in_the_order_of_their_index(plan_of, before):
    steps = plan_of(Query(hand="tamsin"), before)
    assert "hand_updated" in steps[0]
    assert steps[1].startswith("SEARCH job USING INTEGER PRIMARY KEY")
    assert len(steps) == 2


def steps_taken(connection, query: Query, before: PageEnd | None) -> int:
    """How many steps of SQLite's machine a list takes."""
    taken = 0

    def step() -> None:
        nonlocal taken
        taken += 1

    statement, values = statement_for(query, before, nothing_known)
    connection.set_progress_handler(step, 1)
    assert connection.execute(statement, values).fetchall()
    connection.set_progress_handler(None, 0)
    return taken


def test_one_page_of_any_list_costs_the_same_anywhere_in_a_log_of_thousands_of_jobs(many):
    lists = FIXED_LISTS | {
        "to put right": TO_PUT_RIGHT,
        "mine": Query(hand=PEOPLE[0]),
        "due": Query(due_before=date(2040, 1, 1)),
    }
    with closing(sqlite3.connect(many / FILE_NAME)) as connection:
        ends = connection.execute("SELECT updated, id, coalesce(due, 0) FROM job WHERE id IN (3600, 3960)").fetchall()
        for name, query in lists.items():
            for before in (None, *(PageEnd(*end) for end in ends)):
                assert steps_taken(connection, query, before) < FEW, name


def test_words_that_every_job_holds_put_no_more_in_order_than_the_window(many):
    with closing(sqlite3.connect(many / FILE_NAME)) as connection:
        taken = steps_taken(connection, Query(words="harebell"), None)
        assert taken < 40 * WINDOW < steps_taken(connection, Query(words="harebell", limit=JOBS), None)


def test_page_after_page_shows_every_job_once_and_the_newest_first(many):
    log = SqliteJobLog.open(many)
    shown, page = [], log.find(Query(limit=900))
    while page:
        shown += page
        page = log.find(Query(limit=900, before=page[-1].number))
    log.close()
    assert [line.updated for line in shown] == sorted((line.updated for line in shown), reverse=True)
    assert len({line.number for line in shown}) == len(shown) == JOBS
