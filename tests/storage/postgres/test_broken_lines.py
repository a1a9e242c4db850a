"""Lines to the server cut at any moment, programs killed, and the server itself: what was acknowledged is there, once."""

import os
import signal
import threading
from concurrent.futures import ThreadPoolExecutor
from queue import Queue

import psycopg
import pytest

from domain.editing.commands import RaiseSnag
from domain.forms.form_set import FormSet
from domain.gate.issued_paper import IssuedPaper
from domain.log.job_log import BoundPaper, JobLogError, Query, UnknownIfKeptError
from domain.log.stored_log import StoredLog
from storage.postgres.log_server import LogServer
from storage.postgres.postgres_job_log import PostgresJobLog
from storage.postgres.postgres_store import PostgresStore
from storage.postgres.postgres_upkeep import PostgresUpkeep
from storage.postgres.server_address import ServerAddress
from storage.postgres.server_errors import NotKeptError
from tests.builders import AT, INSPECTOR, ON, complete_minor_works, enter, fresh
from tests.storage.children import ended, forked
from tests.storage.database_server import running
from tests.storage.issuing import LATER, WHO, bind


@pytest.fixture
def office(address):
    log = PostgresJobLog.open(address)
    yield log
    log.close()


def cut_lines(address: ServerAddress) -> None:
    """Cut every line to the server but this one."""
    with psycopg.connect(address.url, autocommit=True) as connection:
        connection.execute(
            "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE application_name = 'ohmfolio'"
        ).fetchall()


def test_a_line_cut_between_two_edits_is_taken_up_again_and_nobody_notices(office, address) -> None:
    number = office.create(fresh(FormSet.EIC), who=WHO, at=AT).number
    for turn in range(3):
        cut_lines(address)
        office.edit(number, enter("client", "name", f"Zoë {turn}"), who=WHO, at=AT)
        cut_lines(address)
        assert office.load(number).client.name == f"Zoë {turn}"
    assert [line.version for line in office.trail(number)] == [1, 2, 3, 4]


def test_lines_cut_while_two_people_type_lose_nothing_and_keep_nothing_twice(office, address) -> None:
    """Whoever is told that an edit was not kept, or that nobody knows, asks for it again by its name."""
    number = office.create(fresh(FormSet.EIC), who=WHO, at=AT).number
    turns: Queue[int] = Queue()
    acknowledged: list[str] = []

    def told_of(edit: RaiseSnag, who: str) -> bool:
        """Whether the log acknowledged it. There are eight cuts, and each breaks a line at most once."""
        try:
            office.edit(number, edit, who=who, at=AT, op=edit.what)
        except (NotKeptError, UnknownIfKeptError):
            return False
        acknowledged.append(edit.what)
        return True

    def type_on(who: str) -> None:
        for turn in range(16):
            turns.put(turn)
            edit = RaiseSnag(what=f"{who} {turn}", by=who, on=ON)
            while not told_of(edit, who):
                pass

    def cut() -> None:
        while (turn := turns.get()) >= 0:
            if turn % 4 == 0:
                cut_lines(address)

    with ThreadPoolExecutor(3) as people:
        cutter = people.submit(cut)
        typists = [people.submit(type_on, who) for who in ("robin", "hetty")]
        for typist in typists:
            typist.exception()
        turns.put(-1)
    assert [done.exception() for done in (cutter, *typists)] == [None] * 3
    typed = sorted(snag.what for snag in office.load(number).snags)
    assert typed == sorted(acknowledged) == sorted(f"{who} {turn}" for who in ("robin", "hetty") for turn in range(16))
    assert PostgresUpkeep(address).tend(at=AT).well


def test_a_line_whose_end_is_told_of_before_it_comes_is_a_line_cut(address) -> None:
    """The server's last word may be read while the line still stands; what was asked may then be asked again."""
    PostgresStore.open(address).close()
    server = LogServer(address)
    last_word = "DO $$ BEGIN RAISE 'the server ends this line' USING ERRCODE = 'admin_shutdown'; END $$"
    with pytest.raises(NotKeptError, match="does not answer"), server.transaction():
        server.run_all([(last_word, ()), ("SELECT 1", ())])
    with pytest.raises(NotKeptError, match="does not answer"):
        server.run(last_word)
    assert server.run("SELECT 1") == [(1,)]
    server.close()


def test_a_line_cut_before_the_end_of_a_transaction_keeps_nothing_of_it_and_says_so(address) -> None:
    store = PostgresStore.open(address)
    log = StoredLog(store)
    number = log.create(fresh(FormSet.EIC), who=WHO, at=AT).number

    class CutsAtPut:
        def __getattr__(self, name: str):
            return getattr(store, name)

        def put(self, stored, line, entry) -> None:
            store.put(stored, line, entry)
            cut_lines(address)

    with pytest.raises(JobLogError) as trouble:
        StoredLog(CutsAtPut()).edit(number, enter("client", "name", "Zoë"), who=WHO, at=AT)
    assert isinstance(trouble.value, UnknownIfKeptError) or "not saved" in str(trouble.value)
    assert log.load(number).client.name == ""
    store.close()


def test_a_killed_program_loses_nothing_it_acknowledged_and_holds_nobody_up(address) -> None:
    """Each is killed some edits in; what each acknowledged is there, and the next one need not wait."""
    first = PostgresJobLog.open(address)
    number = first.create(fresh(FormSet.EIC), who=WHO, at=AT).number
    first.close()
    acknowledged: list[str] = []
    for writer in range(2):
        answers, told = os.pipe()

        def write(writer: int = writer, told: int = told) -> None:
            log = PostgresJobLog.open(address)
            for count in range(10_000):
                log.edit(number, RaiseSnag(what=f"{writer} {count}", by=WHO, on=ON), who=WHO, at=AT)
                os.write(told, f"{writer} {count}\n".encode())

        child = forked(write)
        os.close(told)
        heard = b""
        while heard.count(b"\n") < 3 + writer:
            heard += os.read(answers, 4096)
        os.kill(child, signal.SIGKILL)
        while more := os.read(answers, 4096):
            heard += more
        os.close(answers)
        assert ended(child) == -signal.SIGKILL
        acknowledged += heard.decode().splitlines()
    log = PostgresJobLog.open(address)
    kept = [snag.what for snag in log.load(number).snags]
    assert len(kept) == len(set(kept))
    assert [each for each in acknowledged if each not in kept] == []
    assert len(kept) <= len(acknowledged) + 2
    log.close()


def test_a_server_killed_among_edits_and_papers_loses_nothing_acknowledged_and_keeps_no_half_of_a_paper() -> None:
    """The server of this test is its own. It comes back, and the same log goes on without being opened again."""
    with running() as server:
        address = server.address("postgres")
        log = PostgresJobLog.open(address)
        number = log.create(fresh(FormSet.EIC), who=WHO, at=AT).number
        ready = [log.create(complete_minor_works(), who=WHO, at=AT).number for _ in range(2)]
        acknowledged: list[str] = []
        refused: list[str] = []
        enough = threading.Event()

        def type_on() -> None:
            for turn in range(10_000):
                try:
                    log.edit(number, RaiseSnag(what=str(turn), by=WHO, on=ON), who=WHO, at=AT)
                except JobLogError as error:
                    refused.append(str(error))
                    return
                acknowledged.append(str(turn))
                if turn == 8:
                    enough.set()

        typist = threading.Thread(target=type_on)
        typist.start()
        enough.wait()

        def bind_while_it_dies(pack) -> BoundPaper:
            server.kill()
            return bind(pack)

        with pytest.raises(JobLogError, match="does not answer"):
            log.issue(ready[0], by=INSPECTOR, at=LATER, bind=bind_while_it_dies)
        typist.join()
        assert "does not answer" in refused[0] or "may have been saved or not" in refused[0]
        server.start()
        assert log.issued(ready[0]) is None
        assert isinstance(log.issue(ready[0], by=INSPECTOR, at=LATER, bind=bind), IssuedPaper)
        kept = [snag.what for snag in log.load(number).snags]
        assert kept[: len(acknowledged)] == acknowledged
        assert len(kept) - len(acknowledged) in {0, 1}
        assert len(log.find(Query())) == 3
        assert PostgresUpkeep(address).tend(at=AT).well
        log.close()
