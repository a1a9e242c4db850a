"""How a log file gets its layout, and that the driver is one and the same."""

import hashlib
import subprocess
import sys
from contextlib import closing
from datetime import date

import pytest
import sqlite_utils.utils
from sqlite_utils import Migrations

from domain.inspection.observation import Code
from domain.log.job_log import JobLogError, Query
from storage import driver, migrations
from storage.driver import sqlite3
from storage.layout import APPLICATION, GUARDS, LAYOUT, NEVER_RELEASED, STEPS
from storage.log_file import FILE_NAME
from storage.reindex import LINES
from storage.sqlite_job_log import SqliteJobLog
from storage.turn import LOCK_NAME
from tests.builders import AT, complete_minor_works, complete_report, enter
from tests.storage.issuing import WHO, issued_in

SHIPPED_LAYOUT = "d1269e3c9c505025529cce413ceec1b107b4a14747c4070744b300b088740a67"
"""Of every statement that makes the layout; a new step changes it, an altered old one must not."""


def statements(home) -> list[tuple[str, str]]:
    connection = sqlite3.connect(home / FILE_NAME)
    made = connection.execute(
        "SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL AND name NOT LIKE 'job_fts_%'"
        " AND name NOT LIKE '%sqlite%' ORDER BY name"
    ).fetchall()
    connection.close()
    return made


def test_a_new_log_has_the_layout_that_was_shipped(sqlite_log, home):
    made = "\n".join(f"{name}: {' '.join(sql.split())}" for name, sql in statements(home))
    assert hashlib.sha256(made.encode()).hexdigest() == SHIPPED_LAYOUT


def test_every_step_is_counted_and_every_trigger_guarded(sqlite_log, home):
    assert len(migrations.steps.pending(migrations.Database(sqlite3.connect(":memory:")))) == LAYOUT - NEVER_RELEASED
    assert {name for name, sql in statements(home) if sql.startswith("CREATE TRIGGER")} == GUARDS


def test_a_step_that_fails_leaves_no_file_and_the_next_opening_begins_anew(home, monkeypatch):
    broken = Migrations(STEPS)

    @broken()
    def m001_job_log(db) -> None:
        db.conn.execute("CREATE TABLE job (id INTEGER)")
        raise sqlite3.OperationalError("power cut")

    with monkeypatch.context() as patched:
        patched.setattr(migrations, "steps", broken)
        with pytest.raises(JobLogError):
            SqliteJobLog.open(home)
    assert [path.name for path in home.iterdir()] == [LOCK_NAME]
    SqliteJobLog.open(home).close()
    assert len(statements(home)) > 10


def test_the_driver_is_the_one_that_sqlite_utils_uses():
    assert driver.sqlite3 is sqlite_utils.utils.sqlite3


def test_opening_a_log_that_is_up_to_date_loads_no_more_than_it_needs(sqlite_log, home):
    program = (
        "import sys, pathlib; from storage.sqlite_job_log import SqliteJobLog;"
        f"SqliteJobLog.open(pathlib.Path({str(home)!r})).close();"
        "print(*[name for name in ('sqlite_utils', 'platformdirs', 'pymupdf', 'markdown_pdf', 'textual', 'rich') if name in sys.modules])"
    )
    shown = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert shown.stdout.strip() == ""


@pytest.mark.parametrize("layout", [1, NEVER_RELEASED])
def test_a_log_from_before_the_first_release_is_told_in_one_sentence_and_left_alone(sqlite_log, home, layout):
    sqlite_log.close()
    with closing(sqlite3.connect(home / FILE_NAME, isolation_level=None)) as connection:
        connection.execute(f"PRAGMA user_version = {layout}")
        connection.execute("UPDATE _sqlite_migrations SET migration_set = 'job log'")
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    before = (home / FILE_NAME).read_bytes()

    with pytest.raises(JobLogError, match=rf"from before its first release \(layout {layout}\)"):
        SqliteJobLog.open(home)

    assert (home / FILE_NAME).read_bytes() == before


@pytest.mark.parametrize("released", range(NEVER_RELEASED + 1, LAYOUT + 1))
def test_a_log_of_every_layout_that_was_released_is_brought_up_to_date(sqlite_log, home, tmp_path, released):
    older = tmp_path / "older"
    older.mkdir()
    with closing(sqlite3.connect(older / FILE_NAME, isolation_level=None)) as connection:
        database = migrations.Database(connection)
        names = [step.name for step in migrations.steps.pending(database)]
        migrations.steps.apply(database, stop_before=(*names, None)[released - NEVER_RELEASED])
        connection.execute(f"PRAGMA application_id = {APPLICATION}")
        connection.execute(f"PRAGMA user_version = {released}")
    log = SqliteJobLog.open(older)
    number = issued_in(log).number
    log.close()
    assert statements(older) == statements(home)
    with closing(sqlite3.connect(older / FILE_NAME)) as connection:
        assert connection.execute("PRAGMA user_version").fetchone() == (LAYOUT,)
    log = SqliteJobLog.open(older)
    assert log.load(number).issued
    log.close()


def test_a_step_that_asks_for_it_has_every_line_and_its_words_written_anew_once_the_log_is_opened(sqlite_log, home):
    report = issued_in(sqlite_log, complete_report(Code.C2)).number
    draft = sqlite_log.create(complete_minor_works(), who=WHO, at=AT).number
    sqlite_log.edit(draft, enter("client", "name", "Bertram Quill"), who=WHO, at=AT)
    asked = (Query(), Query(engineer="orchard"), Query(words="tamsin orch"), Query(words="bertram"), Query(year=2026))
    lines = [sqlite_log.find(query) for query in asked]
    assert all(lines)
    sqlite_log.close()
    with closing(sqlite3.connect(home / FILE_NAME, isolation_level=None)) as connection:
        connection.execute("UPDATE job_text SET other = '', client = '', facets = ''")
        connection.execute("UPDATE job SET client = '', due = NULL, outcome = NULL")
        connection.execute("DELETE FROM term")
        connection.execute("DELETE FROM near")
        connection.execute("INSERT INTO pending_task (name) VALUES (?)", (LINES,))
    log = SqliteJobLog.open(home)
    assert [log.find(query) for query in asked] == lines
    assert log.line(report).due == date(2031, 3, 2)
    assert log.search(Query(words="bertrem")).jobs[0].by[0].word == "bertram"
    log.close()
    with closing(sqlite3.connect(home / FILE_NAME)) as connection:
        assert connection.execute("SELECT * FROM pending_task").fetchall() == []
