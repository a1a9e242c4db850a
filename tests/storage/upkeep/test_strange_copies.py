"""Copies made by somebody else to do harm: refused before anything is taken from them, and nothing is written outside the log."""

import hashlib
import json
import os
import shutil
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from domain.log.chain import NO_RECORD, leaf, link
from domain.log.job_log import JobLogError
from storage.driver import Connection, sqlite3
from storage.errors import DamagedError
from storage.issued_papers import IssuedPapers
from storage.log_file import FILE_NAME
from storage.upkeep.sqlite_upkeep import SqliteUpkeep

pytestmark = pytest.mark.usefixtures("processes_part")

NOW = datetime.now(UTC)


def _with_number(log: Connection, number: str) -> None:
    for table in ("job", "issued", "paper"):
        log.execute(f"UPDATE {table} SET number = ? WHERE number = 'A-0002'", (number,))
    _change_record(log, number, lambda record: record.update(number=number))


def _change_record(log: Connection, number: str, change: Callable[[dict], object]) -> None:
    """Alter a record and its paper, and make everything that is derived from them anew."""
    ((body,),) = log.execute("SELECT body FROM issued WHERE number = ?", (number,)).fetchall()
    record = json.loads(body)
    change(record)
    body = json.dumps(record, ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode()
    log.execute("UPDATE issued SET body = ?, sha = ? WHERE number = ?", (body, leaf(body), number))
    chain = NO_RECORD
    for seq, sha, pdf_sha in log.execute("SELECT seq, sha, pdf_sha FROM issued ORDER BY seq").fetchall():
        chain = link(chain, sha, pdf_sha)
        log.execute("UPDATE issued SET chain = ? WHERE seq = ?", (chain, seq))


def _outside(log: Connection) -> None:
    _with_number(log, "../../../escaped")


def _paper_outside(log: Connection) -> None:
    log.execute("INSERT INTO paper (number, pdf) VALUES ('../../escaped', x'25504446')")


def _unsigned(log: Connection) -> None:
    _change_record(log, "A-0002", lambda record: record.update(signatures=[]))


def _unsigned_of_another_engine(log: Connection) -> None:
    def change(record: dict) -> None:
        record["issued"]["set_by"] = "another"
        record["signatures"] = []

    _change_record(log, "A-0001", change)


def _issued_by_another(log: Connection) -> None:
    log.execute("UPDATE issued SET issued_by = 'Nobody' WHERE number = 'A-0002'")


def _another_trigger(log: Connection) -> None:
    log.execute("CREATE TRIGGER later AFTER UPDATE ON device BEGIN DELETE FROM draft; END")


def _trigger_named_as_the_librarys(log: Connection) -> None:
    log.execute("CREATE TRIGGER job_fts_later AFTER UPDATE ON device BEGIN DELETE FROM draft; END")


def _trigger_named_as_a_table(log: Connection) -> None:
    log.execute("CREATE TRIGGER job AFTER UPDATE ON device BEGIN DELETE FROM note; END")


def _draft_and_checksum(log: Connection) -> None:
    from storage.rows import checksum

    ((body,),) = log.execute("SELECT body FROM draft JOIN job ON job.id = job_id WHERE number = 'A-0005'").fetchall()
    body = body.replace("the 39th", "the 93rd")
    log.execute(
        "UPDATE draft SET body = ?, crc = ? WHERE job_id = (SELECT id FROM job WHERE number = 'A-0005')",
        (body, checksum(body)),
    )


def _belonging_to_nothing(log: Connection) -> None:
    log.execute("INSERT INTO left_off VALUES ('eve', 999, '{}', 1)")


def _laptop(log: Connection) -> None:
    log.execute(
        "INSERT INTO station (turn, device, name, person, days, is_office, state, key, was, is_awaited)"
        " VALUES (1, 'feed', 'L', 'eve', 14, 0, 'active', 'ab', '[]', 0)"
    )


def _prefix(log: Connection) -> None:
    log.execute("UPDATE device SET prefix = '../x'")


def _index_emptied(log: Connection) -> None:
    """What a quick look does not see: rows that are there, and that no search by the index finds."""
    ((name, made),) = log.execute(
        "SELECT name, sql FROM sqlite_master WHERE type = 'index' AND name NOT LIKE 'idx%' AND instr(sql, 'WHERE') = 0 LIMIT 1"
    ).fetchall()
    for statement, again in ((f"{made} WHERE 0", f"REINDEX {name}"), (made, "SELECT 1")):
        log.execute("PRAGMA writable_schema = ON")
        log.execute("UPDATE sqlite_master SET sql = ? WHERE name = ?", (statement, name))
        log.execute("PRAGMA writable_schema = RESET")
        log.execute(again)


def _draft(log: Connection) -> None:
    from storage.rows import checksum

    log.execute("UPDATE draft SET body = '{}', crc = ?", (checksum("{}"),))


HARM = {
    _outside: "'../../../escaped' is no number",
    _paper_outside: "holds a paper '../../escaped'",
    _unsigned: "A-0002 stands there as issued, and the gate never let it pass",
    _unsigned_of_another_engine: "A-0001 stands there as issued, and the gate never let it pass",
    _issued_by_another: "names another who issued it",
    _another_trigger: "later",
    _trigger_named_as_the_librarys: "job_fts_later",
    _trigger_named_as_a_table: "this program did not make: job",
    _draft_and_checksum: "The draft A-0005 is not what its trail gives",
    _belonging_to_nothing: "belong to jobs that are not there",
    _laptop: "has no laptops, and another program put into it what laptops tell: station",
    _prefix: "'../x' is no number",
    _index_emptied: "rows and their indexes do not hold together",
    _draft: "is not one that this program wrote",
}


@pytest.fixture
def copy(home: Path, tmp_path: Path) -> Path:
    return Path(SqliteUpkeep(home).back_up(str(tmp_path / "copy.ohmfolio")).path)


def _done_to(copy: Path, harm: Callable[[Connection], None]) -> None:
    """Do harm to a copy as one could who knows all about it: its triggers are there again afterwards, word for word."""
    with closing(sqlite3.connect(copy, isolation_level=None)) as log:
        triggers = log.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
        for name, _ in triggers:
            log.execute(f"DROP TRIGGER {name}")
        harm(log)
        for _, statement in triggers:
            log.execute(statement)


def _files(folder: Path) -> dict[str, str]:
    files = (path for path in folder.rglob("*") if path.is_file() and path.suffix not in {".db-shm", ".db-wal"})
    return {str(path.relative_to(folder)): hashlib.sha256(path.read_bytes()).hexdigest() for path in files}


@pytest.mark.parametrize("harm", HARM, ids=lambda harm: harm.__name__)
def test_a_copy_made_to_do_harm_is_refused_in_a_sentence_and_nothing_is_written(
    home: Path, copy: Path, tmp_path: Path, harm: Callable[[Connection], None]
) -> None:
    _done_to(copy, harm)
    before = _files(tmp_path)
    with pytest.raises(JobLogError) as trouble:
        SqliteUpkeep(home).restore(str(copy), at=NOW)
    assert f"{copy} is no copy to go by" in str(trouble.value)
    assert HARM[harm] in str(trouble.value)
    assert isinstance(trouble.value, DamagedError)
    assert _files(tmp_path) == before


def test_a_copy_of_a_newer_version_is_refused_and_not_called_damaged(home: Path, copy: Path) -> None:
    with closing(sqlite3.connect(copy, isolation_level=None)) as log:
        log.execute("PRAGMA user_version = 999")
    with pytest.raises(JobLogError, match="newer version") as trouble:
        SqliteUpkeep(home).restore(str(copy), at=NOW)
    assert not isinstance(trouble.value, DamagedError)


def test_a_guard_of_the_right_name_that_guards_nothing_is_told_from_one_that_does(home: Path, copy: Path) -> None:
    with closing(sqlite3.connect(copy, isolation_level=None)) as log:
        log.execute("DROP TRIGGER issued_stays_on_update")
        log.execute("CREATE TRIGGER issued_stays_on_update BEFORE UPDATE ON issued BEGIN SELECT 1; END")
    with pytest.raises(JobLogError, match="issued_stays_on_update"):
        SqliteUpkeep(home).restore(str(copy), at=NOW)


def test_a_pipe_a_device_and_a_folder_are_no_copies_and_are_not_waited_for(home: Path, tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    for name in (tmp_path / "pipe", tmp_path, Path("/dev/zero")):
        with pytest.raises(JobLogError, match="folder, pipe or device"):
            SqliteUpkeep(home).restore(str(name), at=NOW)


def test_an_untouched_copy_is_taken(home: Path, copy: Path, tmp_path: Path) -> None:
    _done_to(copy, lambda log: None)
    shutil.rmtree(home)
    assert SqliteUpkeep(home).restore(str(copy), at=NOW).missing == ()
    assert (home / FILE_NAME).exists()
    assert not [path for path in home.iterdir() if path.name.endswith(".part")]


@pytest.mark.parametrize("is_there", [True, False])
def test_a_copy_that_is_refused_leaves_nothing_where_there_was_no_log(
    copy: Path, tmp_path: Path, *, is_there: bool
) -> None:
    copy.write_bytes(copy.read_bytes()[:5000])
    new = tmp_path / "new"
    if is_there:
        new.mkdir()
    with pytest.raises(JobLogError, match="damaged"):
        SqliteUpkeep(new).restore(str(copy), at=NOW)
    assert new.exists() is is_there
    assert not is_there or [*new.iterdir()] == []


def test_how_far_the_proof_of_a_copy_is_comes_out_on_the_way(home: Path, copy: Path) -> None:
    told: list[tuple[int, int]] = []
    SqliteUpkeep(home).restore(str(copy), at=NOW, told=lambda done, of: told.append((done, of)))
    assert told == [(5, 5)]


def test_what_does_not_follow_from_the_jobs_of_a_copy_is_made_anew_and_told(home: Path, copy: Path) -> None:
    def astray(log: Connection) -> None:
        log.execute("UPDATE job SET due = due + 400, client = 'Somebody Else' WHERE number = 'A-0002'")
        log.execute("UPDATE duty_day SET by = by + 400 WHERE job_id = 1")
        log.execute("UPDATE register_now SET title = 'nobody'")
        log.execute("DELETE FROM near")

    _done_to(copy, astray)
    restored = SqliteUpkeep(home).restore(str(copy), at=NOW)
    assert "The line of A-0002 does not say what the job does: client" in restored.made_anew
    assert [each.says for each in SqliteUpkeep(home).tend(at=NOW).faults if "key" not in each.says] == []


@pytest.mark.parametrize("number", ["../../x", "A-1", "a-0001", "A-0001/..", "A-0001\n", "", "A-00011234567890"])
def test_no_paper_is_kept_under_what_is_no_number(tmp_path: Path, number: str) -> None:
    with pytest.raises(JobLogError, match="no number of a job"):
        IssuedPapers(tmp_path / "log").place(number, b"%PDF-")
    assert not (tmp_path / "x.pdf").exists()
