"""Copies of a log altered by hand by who knows all about it, by what was done to each; its triggers are there again afterwards."""

import os
import random
from collections.abc import Callable, Mapping
from contextlib import closing
from pathlib import Path

from storage.driver import sqlite3
from tests.ladder.hostile import SQL

Put = Callable[[Path, bytes], object]
_PATHS = (
    "../x",
    "../../../x",
    "/tmp/x",
    "A-1",
    "a-0001",
    "A-0001\n",
    "",
    "A-0001/..",
    "A-99999999999999999999",
    "\x1b[2J",
)
_STATEMENTS: Mapping[str, tuple[str, ...]] = {
    **{f"a paper {name!r}": (f"INSERT INTO paper VALUES ('{name}', x'25')",) for name in _PATHS},
    **{f"a job {name!r}": (f"UPDATE job SET number = '{name}' WHERE id = 5",) for name in _PATHS},
    **{f"a record {name!r}": (f"UPDATE issued SET number = '{name}' WHERE seq = 1",) for name in _PATHS},
    **{f"a machine {name!r}": (f"UPDATE device SET prefix = '{name}'",) for name in _PATHS[:6]},
    **{f"at random: {statement[:50]}": (statement,) for statement in SQL},
    "a paper of another's": ("UPDATE paper SET pdf = (SELECT pdf FROM paper WHERE number = 'A-0002') WHERE number = 'A-0001'",),
    "papers of great size": ("UPDATE paper SET pdf = zeroblob(90000000)",),
    "a trail of great size": ("UPDATE edit SET what = CAST(zeroblob(50000000) AS TEXT) WHERE job_id = 5",),
    "a draft of lists in lists": (f"UPDATE draft SET body = '{'[' * 900_000}'",),
    "a record of lists in lists": (f"UPDATE issued SET body = CAST('{'[' * 900_000}' AS BLOB)",),
    "a draft of nothing": ("UPDATE draft SET body = ''",),
    "a draft of bytes": ("UPDATE draft SET body = CAST(x'ff00ff' AS TEXT)",),
    "moments beyond all": ("UPDATE edit SET at = 9223372036854775807",),
    "moments before all": ("UPDATE edit SET at = -9223372036854775808",),
    "issued beyond all moments": ("UPDATE issued SET issued_at = 9223372036854775807",),
    "counters at their end": ("UPDATE device SET next_number = 9223372036854775807, next_op = 9223372036854775807",),
    "counters put back": ("UPDATE device SET next_number = 1, next_op = 1",),
    "counters ahead": ("UPDATE device SET next_op = next_op + 1000",),
    "a machine put in": ("INSERT INTO device VALUES ('feedfeedfeedfeed', 'ZZ', 1, 1, 0)",),
    "no machine": ("DELETE FROM device",),
    "two machines that are here": ("INSERT INTO device VALUES ('feedfeedfeedfeed', 'ZZ', 1, 1, 1)",),
    "no ledger": ("DELETE FROM ledger",),
    "a ledger of nothing": ("UPDATE ledger SET chain = zeroblob(32)",),
    "a ledger of great chains": ("UPDATE ledger SET chain = zeroblob(100000)",),
    "no trails": ("DELETE FROM edit",),
    "trails of another": ("UPDATE edit SET job_id = 1",),
    "no jobs": ("DELETE FROM job",),
    "lines that say otherwise": ("UPDATE job SET client = 'Nobody'",),
    "lines of great length": ("UPDATE job SET client = CAST(zeroblob(20000000) AS TEXT) WHERE id = 5",),
    "words that are not there": ("DELETE FROM term",),
    "words by the million": ("WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 1000000) INSERT OR IGNORE INTO term SELECT 'word' || i FROM n",),
    "a view that never ends": ("CREATE VIEW extra AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT i FROM n",),
    "a table that is such a view": ("ALTER TABLE note RENAME TO note_was", "CREATE VIEW note AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT i AS id, 'x' AS topic, '' AS text, 0 AS at, '' AS who FROM n"),
    "an index over what runs": ("CREATE INDEX mine ON job (length(client))",),
    "a column that is computed": ("ALTER TABLE job ADD COLUMN mine TEXT AS (randomblob(1000000000))",),
    "a table of its own": ("CREATE TABLE mine (a)",),
    "a table without a row": ("DELETE FROM issued", "DELETE FROM draft", "DELETE FROM job"),
    "an authority for another schema": ("PRAGMA application_id = 7671",),
    "a layout to come": ("PRAGMA user_version = 9999",),
    "a layout before all": ("PRAGMA user_version = -5",),
    "steps that were never taken": ("INSERT INTO _sqlite_migrations (migration_set, name, applied_at) VALUES ('x', 'y', 'z')",),
    "a task of nobody": ("INSERT INTO pending_task VALUES ('rm')",),
    "notes by the hundred thousand": ("WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 100000) INSERT INTO note (topic, text, who, at) SELECT 'x', i, 'eve', 0 FROM n",),
    "a register of nothing": ("DELETE FROM register",),
    "a register of one more right": ("UPDATE register SET body = replace(body, 'Sorrel', 'Morrel')",),
    "who did it": ("UPDATE edit SET who = char(27) || ']0;mine' || char(7)",),
    "who issued it": ("UPDATE issued SET issued_by = char(27) || '[2J'",),
}  # fmt: skip


def altered(statements: tuple[str, ...]) -> Put:
    def put(path: Path, copy: bytes) -> None:
        path.write_bytes(copy)
        with closing(sqlite3.connect(path, isolation_level=None)) as log:
            triggers = log.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
            for name, _ in triggers:
                log.execute(f"DROP TRIGGER {name}")
            log.execute("PRAGMA foreign_keys = OFF")
            for statement in statements:
                try:
                    log.execute(statement)
                except sqlite3.Error as trouble:
                    _not_done(path, statement, trouble)
            for _, made in triggers:
                try:
                    log.execute(made)
                except sqlite3.Error:
                    continue

    return put


def _not_done(path: Path, statement: str, trouble: Exception) -> None:
    """What the tables themselves do not take is given as bytes that are no copy any more, so that no kind is left out."""
    path.with_suffix(".refused").write_text(f"{statement[:60]}: {trouble}\n")


def _marred(turn: int) -> Put:
    def put(path: Path, copy: bytes) -> None:
        chance, body = random.Random(turn), bytearray(copy)
        for _ in range(1 + turn % 7 * 5):
            at = chance.randrange(100 if turn % 3 == 0 else len(body))
            body[at : at + 4] = chance.randbytes(4)
        path.write_bytes(bytes(body))

    return put


CRAFTED_COPIES: Mapping[str, Put] = {
    "pipe": lambda path, copy: os.mkfifo(path),
    "folder": lambda path, copy: path.mkdir(),
    "device": lambda path, copy: path.symlink_to("/dev/zero"),
    "link to itself": lambda path, copy: path.symlink_to(path),
    "no bytes": lambda path, copy: path.write_bytes(b""),
    "its first line": lambda path, copy: path.write_bytes(copy[:100]),
    "half of it": lambda path, copy: path.write_bytes(copy[: len(copy) // 2]),
    "a terabyte of nothing": lambda path, copy: (path.write_bytes(copy), os.truncate(path, 1 << 40)),
    "pages of another size": lambda path, copy: path.write_bytes(copy[:16] + b"\0\x01" + copy[18:]),
    "twice": lambda path, copy: path.write_bytes(copy * 2),
    "with the changes of another": lambda path, copy: (path.write_bytes(copy), path.with_name(f"{path.name}-wal").write_bytes(b"\x37\x7f\x06\x82" + bytes(99_999))),
    "with a journal of another": lambda path, copy: (path.write_bytes(copy), path.with_name(f"{path.name}-journal").write_bytes(b"\xd9\xd5\x05\xf9\x20\xa1\x63\xd7" + b"\xff" * 9999)),
    **{f"bytes turned at random, {turn}": _marred(turn) for turn in range(15)},
    **{name: altered(statements) for name, statements in _STATEMENTS.items()},
}  # fmt: skip
