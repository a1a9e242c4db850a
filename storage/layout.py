"""Which layout a log file has, and whether this program may use it."""

from pathlib import Path

from domain.log.job_log import JobLogError
from storage.driver import Connection, sqlite3
from storage.errors import DamagedError
from storage.laptop_layout import GUARDS as LAPTOP_GUARDS
from storage.trail_layout import GUARDS as TRAIL_GUARDS

NEVER_RELEASED = 7
"""Layouts up to this one were those of versions that nobody was given; no step leads from them to ours."""
LAYOUT = 8
"""Which layout logs of this program have: the first that was released is 8, and each migration step adds one."""
LINES = "lines"
"""The task by which a step asks that every line and its search words be computed again."""
STEPS = "log"
"""What the migration steps are called together; before the first release they were called otherwise."""
APPLICATION = 0x4F484D46
"""Marks the file as a job log."""
GUARDS = frozenset(
    {
        "edit_stays_on_update",
        "edit_stays_on_delete",
        "edit_stays_on_insert",
        "issued_stays_on_update",
        "issued_stays_on_delete",
        "issued_stays_on_insert",
        "job_begins_as_draft",
        "job_state_follows_issue",
        "draft_ends_with_issue_on_insert",
        "draft_ends_with_issue_on_update",
        "job_text_insert",
        "job_text_delete",
        "job_text_update",
        "register_stays_on_update",
        "register_stays_on_delete",
        "register_stays_on_insert",
        "ledger_stays_on_update",
        "ledger_stays_on_delete",
        "ledger_stays_on_insert",
        *LAPTOP_GUARDS,
        *TRAIL_GUARDS,
    }
)
"""Triggers that keep what was issued as it was, and the search words true."""
_OLDEST_SQLITE = (3, 38, 0)


def needs_migrating(connection: Connection, home: Path) -> bool:
    """The file is new or older than this program; raises where it is no job log, or a newer one."""
    if sqlite3.sqlite_version_info < _OLDEST_SQLITE:
        raise JobLogError(f"The job log needs SQLite 3.38 or later; this Python has {sqlite3.sqlite_version}.")
    layout = _number(connection, "PRAGMA user_version")
    if layout > LAYOUT:
        raise JobLogError(
            f"The job log in {home} was written by a newer version of this program (layout {layout}; "
            f"this one knows {LAYOUT}). Nothing has been changed; use the newer one."
        )
    taken = _taken_up_to(connection)
    if 0 < layout <= NEVER_RELEASED and not taken:
        raise JobLogError(
            f"The job log in {home} was begun by a version of this program from before its first release "
            f"(layout {layout}), and none of those is brought up to date. Nothing has been changed; hand its jobs over "
            "with that version, and bring them in with this one."
        )
    tables = _number(connection, "SELECT count(*) FROM sqlite_master")
    if tables and _number(connection, "PRAGMA application_id") != APPLICATION:
        raise JobLogError(f"The file in {home} is not a job log. Nothing has been changed.")
    if layout < LAYOUT and taken != layout:
        raise DamagedError(
            f"The job log in {home} says it has layout {layout}, and is laid out otherwise; another program has altered it. "
            "Nothing has been changed; go back to a copy of it."
        )
    return layout < LAYOUT


def check_guards(connection: Connection, home: Path) -> None:
    """Refuse a file that has lost a trigger, as some general tools cause when they rebuild a table."""
    names = {row[0] for row in connection.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall()}
    if not names >= GUARDS:
        raise DamagedError(
            f"The job log in {home} has lost what protects issued papers; another program has altered it. "
            "Nothing has been changed; go back to a copy of it."
        )


def _taken_up_to(connection: Connection) -> int:
    """The layout to which the steps lead that the file itself says were taken; 0 where it tells of none."""
    if not _number(connection, "SELECT count(*) FROM sqlite_master WHERE name = '_sqlite_migrations'"):
        return 0
    steps = _number(connection, f"SELECT count(*) FROM _sqlite_migrations WHERE migration_set = '{STEPS}'")
    return NEVER_RELEASED + steps if steps else 0


def _number(connection: Connection, question: str) -> int:
    return int(connection.execute(question).fetchall()[0][0])
