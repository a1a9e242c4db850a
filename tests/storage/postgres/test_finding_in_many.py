"""What is found among many jobs on a server is what is found in a folder, whichever of its ways the server is searched."""

from collections.abc import Iterator
from datetime import date

import pytest

from domain.forms.form_set import FormSet
from domain.gate.outcome import Outcome
from domain.log.job_log import JobLog, JobLogError, Query, State
from domain.log.sought import Sought
from storage.postgres import postgres_search
from storage.postgres.postgres_job_log import PostgresJobLog
from storage.sqlite_job_log import SqliteJobLog
from tests.ladder.filled_server import fill_server
from tests.ladder.many_jobs import PEOPLE, fill

JOBS = 240
WAYS = {
    "as in a log of its size": (300, 8_000, 3_000, 10_000),
    "few are few, and the newest tell how far to look": (8, 400, 12, 12),
    "few are few, and of more those begun last are looked through": (1, 1, 12, 1_000),
    "nothing is few, and nothing is found among the newest": (1, 1, 0, 0),
}
"""How many of the newest are looked through first, how many at most, how many are few, and how many are not too many."""
# In a folder, too, words are put in order among the newest begun: of twenty asked, among so many.
QUERIES = {
    "a common word": Query(words="kitchen", limit=20),
    "common words": Query(words="lane kitchen", limit=20),
    "a common word begun": Query(words="lane kitch", limit=20),
    "common words and what none holds": Query(words="lane kitchen zzquenbyzz"),
    "a common word and a number": Query(words="kitchen A-0123"),
    "a postcode begun": Query(place="bq"),
    "words and filters": Query(words="kitchen", form_set=FormSet.EICR, outcome=Outcome.UNSATISFACTORY, limit=20),
    "who tested, with snags": Query(engineer="tamsin", open_snags=True),
    "words of one person": Query(words="kitchen", hand=PEOPLE[1], limit=20),
    "words of what is due": Query(words="kitchen", due_before=date(2031, 6, 1), limit=20),
    "words of what is to be put right": Query(words="kitchen", to_put_right=True, limit=20),
    "what is to be put right": Query(to_put_right=True, limit=20),
    "what is due": Query(due_before=date(2031, 6, 1), limit=20),
    "of one person": Query(hand=PEOPLE[0], limit=20),
    "in a state": Query(state=State.READY, limit=20),
    "newest": Query(limit=20),
}


@pytest.fixture(scope="module")
def both(tmp_path_factory, database_server) -> Iterator[tuple[JobLog, JobLog]]:
    """One and the same log in a folder and on a server."""
    home, address = tmp_path_factory.mktemp("many") / "log", database_server.address("postgres", "of_many")
    fill(home, JOBS)
    fill_server(home, address)
    folder, office = SqliteJobLog.open(home), PostgresJobLog.open(address)
    yield folder, office
    folder.close()
    office.close()


@pytest.mark.parametrize("way", WAYS)
def test_the_same_is_found_on_a_server_as_in_a_folder(both, monkeypatch, way) -> None:
    for name, count in zip(("_NEWEST", "_FURTHER", "_FEW", "_MANY"), WAYS[way], strict=True):
        monkeypatch.setattr(postgres_search, name, count)
    folder, office = both
    for asked in QUERIES.values():
        first = folder.find(asked)
        assert office.find(asked) == first, asked
        if first:
            following = asked.model_copy(update={"before": first[-1].number})
            assert office.find(following) == folder.find(following), following


def test_a_search_tells_the_same_on_a_server_as_in_a_folder(both) -> None:
    folder, office = both
    held = folder.find(Query())[17].client.split()[0]
    for words in ("kitchen lane", held, f"{held[:-2]}x{held[-1]} kitchen", f"the {held} march", "kitchen lane zzzzq"):
        asked = Query(words=words, on=date(2026, 3, 2))
        assert office.search(asked) == folder.search(asked), words


@pytest.mark.parametrize("most", [3, 20, 1000])
def test_as_many_jobs_are_counted_on_a_server_as_in_a_folder_whatever_the_server_knows_of_it(both, most) -> None:
    folder, office = both
    asked = [
        (Sought("kitchen"),),
        (Sought("kitc", begun=True),),
        (Sought("zzquenby"), Sought("kitchen")),
        (Sought("zzquenby"),),
        (Sought("bq", begun=True, column="place"),),
        (Sought("2016", column="when"), Sought("2019", column="when")),
    ]
    assert office._store.counts(asked, most) == folder._store.counts(asked, most)


def test_a_page_after_a_job_that_is_not_there_is_refused(both) -> None:
    for log in both:
        for number in ("A-9999", "A-\0"):
            with pytest.raises(JobLogError):
                log.find(Query(words="kitchen", before=number))
