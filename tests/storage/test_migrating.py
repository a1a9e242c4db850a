"""How a log file gets its layout, and that the driver is one and the same."""

import hashlib
import subprocess
import sys
from datetime import date

import pytest
import sqlite_utils.utils
from sqlite_utils import Migrations

from domain.editing.commands import Declined
from domain.inspection.observation import Code
from domain.log.job_log import JobLogError, Query
from storage import driver, migrations
from storage.driver import sqlite3
from storage.layout import APPLICATION, GUARDS, LAYOUT
from storage.log_file import FILE_NAME
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, complete_minor_works, complete_report, enter
from tests.storage.issuing import WHO, issued_in

SHIPPED_LAYOUT = "dee9e3bbe47cb108fa6bea9a6bc446e9cb8ec496a50b6a7f6811005f3147d74e"
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
    assert len(migrations.steps.pending(migrations.Database(sqlite3.connect(":memory:")))) == LAYOUT
    assert {name for name, sql in statements(home) if sql.startswith("CREATE TRIGGER")} == GUARDS


def test_a_step_that_fails_leaves_an_empty_file_and_the_next_opening_begins_anew(home, monkeypatch):
    broken = Migrations("job log")

    @broken()
    def m001_job_log(db) -> None:
        db.conn.execute("CREATE TABLE job (id INTEGER)")
        raise sqlite3.OperationalError("power cut")

    with monkeypatch.context() as patched:
        patched.setattr(migrations, "steps", broken)
        with pytest.raises(JobLogError):
            SqliteJobLog.open(home)
    assert statements(home) == []
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


def as_the_first_layout_kept_it(made, older) -> None:
    """Copy a log into the layout of the first step, as a program that knew no other would have left it."""
    older.mkdir()
    connection = sqlite3.connect(older / FILE_NAME, isolation_level=None)
    connection.execute(f"ATTACH '{made / FILE_NAME}' AS made")
    migrations.steps.apply(migrations.Database(connection), stop_before="m002_stepping_and_lists")
    guards = connection.execute("SELECT name, sql FROM sqlite_master WHERE name GLOB 'job_[bs]*' AND type = 'trigger'")
    for name, _ in (kept := guards.fetchall()):
        connection.execute(f"DROP TRIGGER {name}")
    for table in ("device", "job", "edit", "issued", "draft", "job_text"):
        connection.execute(f"DELETE FROM main.{table}")
        columns = ", ".join(row[1] for row in connection.execute(f"PRAGMA main.table_info({table})").fetchall())
        connection.execute(f"INSERT INTO main.{table} ({columns}) SELECT {columns} FROM made.{table}")
    connection.execute("UPDATE job_text SET facets = ''")
    for _, statement in kept:
        connection.execute(statement)
    connection.execute(f"PRAGMA application_id = {APPLICATION}")
    connection.execute("PRAGMA user_version = 1")
    connection.close()


def test_who_signed_is_found_by_plain_words_in_a_log_that_knew_them_by_a_filter_only(sqlite_log, home):
    number = sqlite_log.create(complete_minor_works(), who=WHO, at=AT).number
    sqlite_log.close()
    connection = sqlite3.connect(home / FILE_NAME, isolation_level=None)
    connection.execute("UPDATE job_text SET other = replace(replace(other, 'tamsin', ''), 'orchard', '')")
    connection.execute("DELETE FROM term WHERE word IN ('tamsin', 'orchard')")
    connection.execute("DELETE FROM near WHERE word IN ('tamsin', 'orchard')")
    connection.execute("DELETE FROM _sqlite_migrations WHERE name = 'm006_people_by_words'")
    connection.execute("PRAGMA user_version = 5")
    connection.close()
    log = SqliteJobLog.open(home)
    assert [line.number for line in log.find(Query(words="tamsin orch"))] == [number]
    assert log.corrected(Query(words="tamsen")).words == "tamsin"
    log.close()


def test_a_log_of_the_first_layout_is_brought_up_to_date_with_all_it_holds(sqlite_log, home, tmp_path):
    report = issued_in(sqlite_log, complete_report(Code.C2)).number
    draft = sqlite_log.create(complete_minor_works(), who=WHO, at=AT).number
    sqlite_log.edit(draft, enter("client", "name", "Bertram Quill"), who=WHO, at=AT)
    as_the_first_layout_kept_it(home, tmp_path / "older")
    log = SqliteJobLog.open(tmp_path / "older")
    for number in (report, draft):
        assert (log.load(number), log.line(number)) == (sqlite_log.load(number), sqlite_log.line(number))
    assert log.line(report).due == date(2031, 3, 2)
    for query in (Query(hand=WHO), Query(year=2026), Query(engineer="orchard"), Query(to_put_right=True)):
        assert [line.number for line in log.find(query)] == [line.number for line in sqlite_log.find(query)] != []
    assert log.corrected(Query(words="bertrem")).words == "bertram"
    assert isinstance(log.undo(draft, who=WHO, at=AT), Declined)
    log.edit(draft, enter("client", "name", "Hetty Quill"), who=WHO, at=AT)
    assert log.undo(draft, who=WHO, at=AT).job.client.name == "Bertram Quill"
    log.close()
    log = SqliteJobLog.open(tmp_path / "older")
    assert log.line(draft).client == "Bertram Quill"
    log.close()
