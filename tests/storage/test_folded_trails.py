"""The trail of an issued job is folded into one block, and is read, asked again and proved as it was before."""

import zlib
from contextlib import closing
from pathlib import Path

import psycopg
import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.editing.commands import Declined
from domain.editing.undo import UndoStep
from domain.job.job import Job
from domain.log.job_log import JobLog
from storage import jobs
from storage.driver import sqlite3
from storage.errors import DamagedError
from storage.log_file import FILE_NAME
from storage.postgres.postgres_job_log import PostgresJobLog
from storage.postgres.postgres_upkeep import PostgresUpkeep
from storage.postgres.server_lines import conninfo_of
from storage.sqlite_job_log import SqliteJobLog
from storage.trail_block import EditRow, folded, note_counters, unfolded
from storage.upkeep.sqlite_upkeep import SqliteUpkeep
from tests.builders import AT, INSPECTOR, complete_minor_works, enter
from tests.examples import examples
from tests.storage.issuing import LATER, WHO, bind, sign

_NAMES = ("Zoë", "Zoë F", "Zoë Fairweather")


def _edited(log: JobLog, op: str = "") -> str:
    """A job with a few edits, one of them undone and made again."""
    number = log.create(complete_minor_works(), who=WHO, at=AT, op=op).number
    for name in _NAMES:
        log.edit(number, enter("client", "name", name), who=WHO, at=AT, op=op and f"{op}{name}")
    assert isinstance(log.undo(number, who=WHO, at=AT), UndoStep)
    assert isinstance(log.redo(number, who=WHO, at=AT), UndoStep)
    log.edit(number, enter("client", "telephone", "01632 960001"), who="rufus", at=AT)
    sign(log, number)
    return number


def _rows(home: Path, question: str) -> list[tuple]:
    with closing(sqlite3.connect(home / FILE_NAME)) as connection:
        return connection.execute(question).fetchall()


def test_a_trail_is_read_and_asked_again_after_the_issue_as_before(log: JobLog) -> None:
    number = _edited(log, op="begun here")
    before, version = log.trail(number), log.version(number)
    kept = log.load(number)

    paper = log.issue(number, by=INSPECTOR, at=LATER, bind=bind, op="issued here")

    assert log.trail(number)[:-1] == before
    assert log.trail(number, after=3)[:-1] == before[3:]
    assert [each.what for each in log.trail(number, after=version)] == ["Issued"]
    assert log.create(complete_minor_works(), who=WHO, at=AT, op="begun here").number == number
    again = log.edit(number, enter("client", "name", "Zoë F"), who=WHO, at=AT, op="begun hereZoë F")
    assert isinstance(again, Job)
    assert again.client == kept.client
    assert log.issue(number, by=INSPECTOR, at=LATER, bind=bind, op="issued here") == paper
    assert isinstance(log.undo(number, who=WHO, at=LATER), Declined)
    assert isinstance(log.replace(number, because="a reading was misread", who=WHO, at=LATER), Job)


def test_what_is_folded_takes_one_row_and_general_tools_are_told_of_it(sqlite_log, home) -> None:
    number = _edited(sqlite_log)
    version = sqlite_log.version(number)

    sqlite_log.issue(number, by=INSPECTOR, at=LATER, bind=bind)
    sqlite_log.close()

    assert _rows(home, "SELECT what FROM edit") == [("Issued",)]
    assert _rows(home, "SELECT last, begun_as LIKE '%:1' FROM folded_trail") == [(version, 1)]
    assert [row[-1] for row in _rows(home, "SELECT * FROM log_trail")] == [
        "Issued",
        f"Edits 1 to {version}, folded: this program shows them",
    ]
    assert SqliteUpkeep(home).tend(at=LATER).well


def test_tending_folds_the_trails_that_an_earlier_version_left_and_goes_on_where_it_was_stopped(
    sqlite_log, home, monkeypatch
) -> None:
    with monkeypatch.context() as earlier:
        earlier.setattr(jobs, "fold", lambda *_: None)
        for _ in range(2):
            sqlite_log.issue(_edited(sqlite_log), by=INSPECTOR, at=LATER, bind=bind)
        sqlite_log.replace("A-0001", because="a reading was misread", who=WHO, at=LATER)
        sign(sqlite_log, "A-0003")
        sqlite_log.issue("A-0003", by=INSPECTOR, at=LATER, bind=bind)
    trails = [sqlite_log.trail(number) for number in ("A-0001", "A-0002", "A-0003")]
    sqlite_log.close()

    monkeypatch.setattr("storage.trails._AT_ONCE", 1)
    with monkeypatch.context() as stopped:
        stopped.setattr("storage.trails.folded", _power_cut(after=1))
        with pytest.raises(KeyboardInterrupt):
            SqliteUpkeep(home).tend(at=LATER)
    first, second = SqliteUpkeep(home).tend(at=LATER), SqliteUpkeep(home).tend(at=LATER)

    assert (first.well, first.folded, second.well, second.folded) == (True, 2, True, 0)
    assert second.proved_before == 3
    assert {what for (what,) in _rows(home, "SELECT what FROM edit")} == {"Issued", "Replaced by A-0003"}
    with closing(SqliteJobLog.open(home)) as log:
        assert [log.trail(number) for number in ("A-0001", "A-0002", "A-0003")] == trails


def _power_cut(after: int):
    done = []

    def fold(rows):
        if len(done) == after:
            raise KeyboardInterrupt
        done.append(rows)
        return folded(rows)

    return fold


def test_on_a_server_whoever_owns_the_log_folds_by_tending_it(address) -> None:
    with closing(PostgresJobLog.open(address)) as log:
        number = _edited(log)
        log.issue(number, by=INSPECTOR, at=LATER, bind=bind)
        before, version = log.trail(number), log.version(number)
        upkeep = PostgresUpkeep(address)

        condition = upkeep.tend(at=LATER)

        assert (condition.well, condition.folded) == (True, 1)
        assert (log.trail(number), log.version(number)) == (before, version)
        edit = log.edit(number, enter("client", "name", "Another"), who=WHO, at=LATER)
        assert isinstance(edit, Declined)
    with psycopg.connect(conninfo_of(address)) as connection, connection.transaction():
        assert connection.execute("SELECT what FROM edit").fetchall() == [("Issued",)]
        with pytest.raises(psycopg.Error, match="edit stays as it was kept"), connection.transaction():
            connection.execute("DELETE FROM edit")
        with pytest.raises(psycopg.Error, match="folded_trail stays as it was kept"), connection.transaction():
            connection.execute("DELETE FROM folded_trail")
        connection.execute("SET LOCAL session_replication_role = replica")
        connection.execute("UPDATE folded_trail SET edits = decode('00', 'hex')")
    assert "trail of A-0001 is not as it was kept: edit 1 to" in upkeep.tend(at=LATER).faults[0].says


def test_a_log_in_which_something_is_wrong_is_left_as_it_is(sqlite_log, home, monkeypatch) -> None:
    monkeypatch.setattr(jobs, "fold", lambda *_: None)
    sqlite_log.issue(_edited(sqlite_log), by=INSPECTOR, at=LATER, bind=bind)
    sqlite_log.close()
    (home / "issued" / "A-0001.pdf").unlink()

    condition = SqliteUpkeep(home).tend(at=LATER)

    assert (condition.well, condition.folded) == (False, 0)


_TEXT = st.text(st.characters(exclude_categories=("Cs",)), max_size=20)
_WHOLE = st.integers(-(2**63), 2**63 - 1)
_ROWS = st.lists(
    st.tuples(_WHOLE, _TEXT, _WHOLE, _TEXT, _TEXT, *[st.none() | _TEXT] * 3, *[st.none() | st.integers(0, 9)] * 2),
    min_size=1,
    max_size=6,
)


@examples(0.5)
@given(_ROWS)
def test_what_is_folded_unfolds_to_the_same_rows(given_rows) -> None:
    rows = [EditRow(seq, op, at, *rest) for at, (seq, op, *rest) in enumerate(given_rows, 1)]

    assert unfolded(folded(rows), "it") == rows


@pytest.mark.parametrize(
    "block",
    [
        b"",
        b"no block",
        zlib.compress(b"[]"),
        zlib.compress(b"[[1],[2],[3],[4],[5],[6],[7],[8],[9],[10]]"),
        zlib.compress(b'[[1,2],["a"],[3],["w"],["w"],[null],[null],[null],[null],[null]]'),
        folded([EditRow(1, "a:1", 1, 1, "who", "what", None, None, None, None, None)])[:-5],
    ],
)
def test_a_block_that_was_not_made_here_is_told(block) -> None:
    with pytest.raises(DamagedError, match="The trail of A-0001 is damaged"):
        unfolded(block, "A-0001")


def test_a_block_that_unfolds_to_more_than_any_trail_is_not_unfolded(monkeypatch) -> None:
    monkeypatch.setattr("storage.trail_block._MOST", 1000)
    with pytest.raises(DamagedError):
        unfolded(folded([EditRow(1, "a:1", 1, 1, "who", "x" * 2000, None, None, None, None, None)]), "A-0001")


def test_the_last_name_a_device_gave_is_known_among_names_that_others_gave() -> None:
    last: dict[str, int] = {}
    note_counters(last, ["ab:7", "ab:12", "abc:99", "ab:x", "ab:٣", "deed", "ab:9"])
    assert last["ab"] == 12
