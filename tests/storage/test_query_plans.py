"""No list of the log walks all jobs or sorts them."""

from datetime import date

import pytest

from domain.form_set import FormSet
from domain.gate import Outcome
from domain.job_log import Query, State
from storage.driver import sqlite3
from storage.log_file import FILE_NAME
from storage.search import PageEnd, statement_for

FIXED_LISTS = {
    "newest": Query(),
    "of a form set": Query(form_set=FormSet.EIC),
    "in a state": Query(state=State.READY),
    "with an outcome": Query(outcome=Outcome.UNSATISFACTORY),
    "with open snags": Query(open_snags=True),
    "due": Query(due_before=date(2027, 3, 2)),
    "to put right": Query(to_put_right=True),
}
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


@pytest.fixture
def plan_of(sqlite_log, home):
    connection = sqlite3.connect(home / FILE_NAME)

    def plan(query: Query, before: PageEnd | None) -> list[str]:
        statement, values = statement_for(query, before)
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
