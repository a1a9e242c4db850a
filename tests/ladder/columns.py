"""Every column of every table of a real log altered by plain SQL, one at a time, with the guards put back: which of it `tend` tells."""

import shutil
import tempfile
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import NamedTuple

from storage.driver import Connection, sqlite3
from storage.log_file import FILE_NAME
from storage.upkeep.sqlite_upkeep import SqliteUpkeep
from tests.storage.upkeep.conftest import begin_real_log

_NOT_KEPT = ("job_fts", "job_vocabulary", "sqlite_")
"""What SQLite makes itself; the index is altered through its own tables."""
MAY_BE_ALTERED = {
    "_sqlite_migrations.applied_at": "the moment at which a step of the layout says it was taken; nothing follows from it",
    "_sqlite_migrations.id": "the number of a row that nothing names",
    "left_off.place": "where somebody left off: no more than where the cursor begins",
    "left_off.turn": "the same",
    "left_off.who": "the same",
    "left_off.job_id": "the same",
    "left_off rows": "the same",
    "duty_rules.version": "by which rules days were counted: told as not proved, and counted anew when they are asked for",
    "duty_rules rows": "the same",
}


class Altered(NamedTuple):
    """One alteration: of which column or table, and the statement."""

    what: str
    statement: str


def altered_columns(folder: Path, _: list[int]) -> Iterator[str]:
    """A line for each column that may be altered untold, with the reason or NOT MEANT; then the counts."""
    count = told = 0
    with tempfile.TemporaryDirectory(dir=folder) as made:
        real = begin_real_log(Path(made) / "log")
        SqliteUpkeep(real).tend(at=datetime.now(UTC))
        with closing(sqlite3.connect(real / FILE_NAME)) as log:
            alterations = [*_alterations(log)]
        for turn, altered in enumerate(alterations):
            home = shutil.copytree(real, Path(made) / str(turn))
            if trouble := alter(home, altered.statement):
                yield f"- {altered.what}: not taken by the file itself ({trouble}): {altered.statement[:90]}"
            else:
                count += 1
                condition = SqliteUpkeep(home).tend(at=datetime.now(UTC))
                if condition.faults:
                    told += 1
                else:
                    reason = MAY_BE_ALTERED.get(altered.what, "NOT MEANT")
                    unproven = "; ".join(each.says for each in condition.unproven)
                    yield f"- {altered.what}: not told, {reason} {unproven}({altered.statement[:90]})"
            shutil.rmtree(home)
    yield f"- {told} of {count} alterations told"


def alter(home: Path, statement: str) -> str:
    """Run a statement with the guards taken away, and put those back; why it could not be, or ""."""
    with closing(sqlite3.connect(home / FILE_NAME, isolation_level=None)) as log:
        ((counted,),) = log.execute("PRAGMA schema_version").fetchall()
        guards = log.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
        for name, _ in guards:
            log.execute(f"DROP TRIGGER {name}")
        log.execute("PRAGMA foreign_keys = OFF")
        try:
            done = log.execute(statement).rowcount
        except sqlite3.Error as trouble:
            return str(trouble)
        for _, made in guards:
            log.execute(made)
        log.execute(f"PRAGMA schema_version = {counted}")
    return "" if done else "nothing there"


def _alterations(log: Connection) -> Iterator[Altered]:
    tables = log.execute("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name").fetchall()
    for (table,) in tables:
        if table.startswith(_NOT_KEPT):
            continue
        columns = log.execute(f"PRAGMA table_info({table})").fetchall()
        keys = ", ".join(name for _, name, _, _, _, key in columns if key) or "rowid"
        for order in ("ASC", "DESC"):
            which = (
                f"({keys}) = (SELECT {keys} FROM {table} ORDER BY {keys.replace(', ', f' {order}, ')} {order} LIMIT 1)"
            )
            for _, name, kind, *_ in columns:
                for value in _others(name, kind):
                    yield Altered(f"{table}.{name}", f"UPDATE {table} SET {name} = {value} WHERE {which}")
            yield Altered(f"{table} rows", f"DELETE FROM {table} WHERE {which}")
        yield Altered(f"{table} rows", f"DELETE FROM {table}")


def _others(name: str, kind: str) -> Iterator[str]:
    if kind == "INTEGER":
        yield f"coalesce({name}, 7) + 1"
        yield f"CASE WHEN {name} IS NULL THEN 9 ELSE NULL END"
    elif kind == "BLOB":
        yield f"CAST(substr({name}, 1, 5) || x'21' || substr({name}, 7) AS BLOB)"
    else:
        yield f"coalesce({name}, '') || 'x'"
        yield f"CASE WHEN coalesce({name}, '') = '' THEN 'x' ELSE '' END"
