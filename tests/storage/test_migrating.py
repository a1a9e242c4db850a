"""How a log file gets its layout, and that the driver is one and the same."""

import hashlib
import subprocess
import sys

import pytest
import sqlite_utils.utils
from sqlite_utils import Migrations

from domain.job_log import JobLogError
from storage import driver, migrations
from storage.driver import sqlite3
from storage.layout import GUARDS, LAYOUT
from storage.log_file import FILE_NAME
from storage.sqlite_job_log import SqliteJobLog

SHIPPED_LAYOUT = "cb000ec71302530d106f456eeecb55b26ea1f3cdffacd95f0ba72b998a7ff97c"
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
