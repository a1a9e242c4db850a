"""Transactions at a server in few journeys: what was asked ahead, and what is sent together with what comes next."""

from collections.abc import Iterator

import pytest

from domain.log.job_log import JobLogError
from storage.postgres.log_server import LogServer
from storage.postgres.postgres_store import PostgresStore

NOTED = "SELECT text FROM note ORDER BY id"
ADD = "INSERT INTO note (topic, who, at, text) VALUES ('practice', '', 0, %s)"


@pytest.fixture
def server(address) -> Iterator[LogServer]:
    PostgresStore.open(address).close()
    server = LogServer(address)
    yield server
    server.close()


def test_what_was_asked_ahead_answers_once_and_not_after_it_was_written_to(server) -> None:
    with server.transaction(ahead=[(NOTED, ()), ("SELECT count(*) FROM job", ())]):
        server.run_all([(ADD, ("a lamp out",))])
        assert server.run(NOTED) == [("a lamp out",)]
        assert server.run("SELECT count(*) FROM job") == [(0,)]
        server.run(ADD, ("a lid off",))
        assert server.run(NOTED) == [("a lamp out",), ("a lid off",)]
    assert server.run(NOTED) == [("a lamp out",), ("a lid off",)]


def test_what_is_asked_ahead_twice_is_answered_twice(server) -> None:
    following = "SELECT nextval('edit_name')"
    with server.transaction((NOTED, ()), ahead=[(following, ()), (NOTED, ()), (following, ())]):
        assert server.run(NOTED) == []
        (first,), (second,) = server.run(following), server.run(following)
    assert first != second


def test_what_is_sent_later_keeps_its_place_before_what_is_asked_and_what_comes_last(server) -> None:
    with server.transaction():
        server.run_last(ADD, ("third",))
        server.run_all([(ADD, ("first",))])
        assert server.answers((ADD, ("second",)), (NOTED, ())) == [[], [("first",), ("second",)]]
    assert server.run(NOTED) == [("first",), ("second",), ("third",)]


def test_what_is_sent_later_and_refused_leaves_nothing_kept(server) -> None:
    with pytest.raises(JobLogError, match="stay as they are"), server.transaction():
        server.run_all([(ADD, ("a lamp out",)), ("DELETE FROM note", ())])
    assert server.run(NOTED) == []
    with server.transaction():
        server.run_all([(ADD, ("a lid off",))])
    assert server.run(NOTED) == [("a lid off",)]
