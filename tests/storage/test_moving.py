"""A log moved to a server and back is the same log: rows, papers, chain, trails and registers; nothing is given twice."""

from contextlib import closing, contextmanager
from pathlib import Path
from shutil import copytree

import pytest

from domain.editing.commands import Enter
from domain.forms.form_set import FormSet
from domain.inspection.observation import Code
from domain.log.due_days import DueAsked
from domain.log.job_log import JobLog, JobLogError, Query
from domain.log.upkeep import Concern
from domain.register.entries import Person, RegisterKind
from storage.child_process import start
from storage.driver import sqlite3
from storage.keys.key_file import KeyFile
from storage.log_file import FILE_NAME
from storage.moving.folder_place import FolderPlace
from storage.moving.moving import move
from storage.moving.parts import MADE_ANEW, PAPER, PARTS
from storage.moving.server_place import ServerPlace
from storage.postgres import postgres_reindex
from storage.postgres.postgres_job_log import PostgresJobLog
from storage.postgres.postgres_upkeep import PostgresUpkeep
from storage.postgres.server_address import ServerAddress
from storage.sqlite_job_log import SqliteJobLog
from storage.upkeep.sqlite_upkeep import SqliteUpkeep
from tests.builders import AT, INSPECTOR, complete_report, enter, fresh
from tests.storage.children import ended, forked
from tests.storage.database_server import DatabaseServer
from tests.storage.issuing import LATER, WHO, bind, issued_in, sign

_SCHEMAS = iter(f"moved_{count}" for count in range(1000))


@pytest.fixture
def server_place(database_server: DatabaseServer) -> ServerAddress:
    """A schema that nothing is in yet."""
    return database_server.address("postgres", next(_SCHEMAS))


@pytest.fixture(scope="module")
def filled(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a log with something of everything in it."""
    home = tmp_path_factory.mktemp("filled") / "log"
    log = SqliteJobLog.open(home)
    fill(log)
    log.close()
    return home


@pytest.fixture
def home(filled: Path, tmp_path: Path) -> Path:
    return copytree(filled, tmp_path / "log")


def fill(log: JobLog) -> None:
    """A log with something of everything in it."""
    first = issued_in(log).number
    issued_in(log, complete_report(Code.C2))
    draft = log.create(fresh(FormSet.EIC), who="robin", at=AT).number
    for name in ("Zoë", "Zoë Fairweather"):
        log.edit(draft, enter("client", "name", name), who="robin", at=AT)
    log.undo(draft, who="robin", at=LATER)
    log.save_position(draft, "client", who="robin")
    log.add_note("practice", "Ω ✓ 'quoted' \\ and\na line", who=WHO, at=AT)
    person = log.register(Person(name=INSPECTOR, signs=()), who=WHO, at=AT)
    log.register(Person(name="Ned Farthing"), entry_id=person.id, who=WHO, at=LATER, retired=True)
    log.replace(first, because="a reading was misread", who=WHO, at=LATER)


def everything(log: JobLog) -> list:
    lines = log.find(Query())
    told = [
        (each, log.load(each.number), log.trail(each.number), log.version(each.number), _paper(log, each.number))
        for each in lines
    ]
    registers = [log.registered(kind, retired=retired) for kind in RegisterKind for retired in (False, True)]
    words = [log.find(Query(words=words)) for words in ("fairweather", "form:EICR", "engineer:" + INSPECTOR, "wet")]
    return [
        told,
        registers,
        words,
        log.chain_head(),
        log.notes("practice"),
        log.position("A-0003", who="robin"),
        log.last_opened(who="robin"),
        list(log.due(DueAsked())),
        list(log.due(DueAsked(done=True))),
        list(log.unanswered()),
        log.search(Query(words="fairwether")).jobs,
        log.had_head(log.chain_head()),
        log.seal_keys(),
    ]


def _paper(log: JobLog, number: str) -> tuple:
    issued = log.issued(number)
    return (issued.sha256, issued.pages, issued.replaced_by, log.paper(number)) if issued else ()


def test_a_log_goes_to_a_server_and_back_and_is_the_same_log(home: Path, tmp_path: Path, server_place) -> None:
    log = SqliteJobLog.open(home)
    before = everything(log)
    log.close()
    there = move(FolderPlace(home), ServerPlace(server_place), place=str(server_place), at=AT)
    with pytest.raises(JobLogError, match=f"was moved to {server_place.url[:20]}"):
        SqliteJobLog.open(home)
    office = PostgresJobLog.open(server_place)
    assert everything(office) == before
    assert PostgresUpkeep(server_place).tend(at=AT).well
    assert office.create(fresh(FormSet.EIC), who=WHO, at=AT).number == "A-0005"
    sign(office, "A-0004")
    office.edit("A-0003", Enter(place=enter("client", "name", "").place, text="Bertram"), who="robin", at=LATER)
    office.issue("A-0004", by=INSPECTOR, at=LATER, bind=bind)
    office.register(Person(name="Agnes Quill"), who=WHO, at=LATER)
    after = everything(office)
    office.close()
    back = tmp_path / "back"
    here = move(ServerPlace(server_place), FolderPlace(back), place=str(back), at=AT)
    assert (there.proof.issued, here.proof.issued, here.proof.jobs) == (2, 3, 5)
    with pytest.raises(JobLogError, match="was moved to"):
        PostgresJobLog.open(server_place)
    log = SqliteJobLog.open(back)
    assert everything(log) == after
    assert log.create(fresh(FormSet.EIC), who=WHO, at=AT).number == "A-0006"
    log.close()
    (fault,) = SqliteUpkeep(back).tend(at=AT).faults
    assert fault.about is Concern.KEY
    KeyFile(back).take_along(KeyFile(home))
    assert SqliteUpkeep(back).tend(at=AT).well
    again = move(FolderPlace(back), ServerPlace(server_place), place=str(server_place), at=AT)
    assert again.proof.jobs == 6
    assert PostgresUpkeep(server_place).tend(at=AT).well


def test_a_process_of_its_own_makes_a_part_of_what_is_found_by_where_there_is_a_processor_for_it(
    home: Path, server_place, monkeypatch: pytest.MonkeyPatch
) -> None:
    log = SqliteJobLog.open(home)
    before = everything(log)
    log.close()
    started = []

    def begin(*typed, **settings):
        started.append(start(*typed, **settings))
        return started[-1]

    monkeypatch.setattr(postgres_reindex, "start", begin)
    monkeypatch.setattr(postgres_reindex, "_WORTH_A_PROCESS", 1)
    monkeypatch.setattr(postgres_reindex.os, "cpu_count", lambda: 2)
    move(FolderPlace(home), ServerPlace(server_place), place=str(server_place), at=AT)
    assert [each.returncode for each in started] == [0]
    office = PostgresJobLog.open(server_place)
    assert everything(office) == before
    office.close()


def test_a_move_carries_every_table_and_column_that_a_log_is_kept_in(home: Path) -> None:
    carried = {f"{part.name}.{column}" for part in PARTS if part is not PAPER for column in part.columns}
    with closing(sqlite3.connect(home / FILE_NAME)) as connection:
        tables = {
            name
            for name, statement in connection.execute("SELECT name, sql FROM sqlite_master WHERE type = 'table'")
            if not name.startswith(("job_fts", "sqlite_", "_sqlite_")) and "VIRTUAL" not in statement
        }
        held = {
            f"{table}.{column[1]}" for table in tables for column in connection.execute(f"PRAGMA table_info ({table})")
        }
    not_carried = held - carried
    assert carried <= held
    assert {each for each in not_carried if each not in MADE_ANEW and each.partition(".")[0] not in MADE_ANEW} == set()
    assert {each for each in MADE_ANEW if each not in not_carried | tables} == set()


class BreaksOff:
    """An end that breaks after so many writes."""

    def __init__(self, end, left: int) -> None:
        self._end, self._left = end, left

    def __getattr__(self, name: str):
        return getattr(self._end, name)

    def add(self, part, rows) -> None:
        self._left -= 1
        if self._left < 0:
            raise JobLogError("Stopped.")
        self._end.add(part, rows)


@pytest.mark.parametrize("to_server", [True, False])
def test_a_move_that_breaks_off_anywhere_goes_on_and_nobody_opens_it_before(
    home: Path, tmp_path: Path, server_place, monkeypatch: pytest.MonkeyPatch, to_server: bool
) -> None:
    log = SqliteJobLog.open(home)
    before = everything(log)
    log.close()
    there = tmp_path / "there"
    place = ServerPlace(server_place) if to_server else FolderPlace(there)
    name = str(server_place) if to_server else str(there)
    filled = place.filled
    for writes in (0, 2, 3, 3):

        @contextmanager
        def breaking(mark, at, writes=writes):
            with filled(mark, at) as end:
                yield BreaksOff(end, writes)

        monkeypatch.setattr(place, "filled", breaking)
        with pytest.raises(JobLogError, match="Stopped"):
            move(FolderPlace(home), place, place=name, at=AT)
        if to_server:
            with pytest.raises(JobLogError, match="being moved"):
                PostgresJobLog.open(server_place)
        SqliteJobLog.open(home).close()
    monkeypatch.setattr(place, "filled", filled)
    monkeypatch.setattr(place, "ready", _stops)
    with pytest.raises(JobLogError, match="Stopped"):
        move(FolderPlace(home), place, place=name, at=AT)
    monkeypatch.undo()
    move(FolderPlace(home), place, place=name, at=AT)
    log = PostgresJobLog.open(server_place) if to_server else SqliteJobLog.open(there)
    assert everything(log) == before
    log.close()


def _stops() -> None:
    raise JobLogError("Stopped.")


def test_a_log_is_not_moved_over_another_nor_while_it_is_open_nor_when_it_is_not_whole(home, tmp_path, server_place):
    log = SqliteJobLog.open(home)

    def another_program_moves_it() -> None:
        with pytest.raises(JobLogError, match="open in another program"):
            move(FolderPlace(home), FolderPlace(tmp_path / "there"), place="there", at=AT)

    assert ended(forked(another_program_moves_it)) == 0
    log.close()
    PostgresJobLog.open(server_place).close()
    with pytest.raises(JobLogError, match="holds a job log already"):
        move(FolderPlace(home), ServerPlace(server_place), place=str(server_place), at=AT)
    (home / "issued" / "A-0001.pdf").write_bytes(b"another")
    with pytest.raises(JobLogError, match="not whole"):
        move(FolderPlace(home), FolderPlace(tmp_path / "there"), place="there", at=AT)
    with pytest.raises(JobLogError, match="no job log"):
        move(FolderPlace(tmp_path / "nothing"), FolderPlace(tmp_path / "there"), place="there", at=AT)
    SqliteJobLog.open(home).close()
