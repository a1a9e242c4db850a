"""Copies of a log whose tables, or whose file, are others than they say, by what was done to each; the guards are there again afterwards."""

import gzip
import io
import os
import zipfile
from collections.abc import Callable, Mapping
from contextlib import closing
from pathlib import Path

from storage.driver import sqlite3
from tests.ladder.crafted_copies import altered

Put = Callable[[Path, bytes], object]

_BAD = "CAST(x'41ff42' AS TEXT)"
_LAST = {table: f" WHERE rowid = (SELECT max(rowid) FROM {table})" for table in ("edit", "ledger", "issued")}
_CODES = "char(27) || ']0;mine' || char(7)"
_TEXTS = {
    "job": ("client", "premises", "form_set", "outcome"),
    "edit": ("op", "who", "what", "command", "begun", "changes"),
    "register": ("kind", "who", "body"),
    "note": ("topic", "who", "text"),
    "ledger": ("kind", "about"),
    "duty_day": ("duty", "counted"),
    "job_text": ("client", "facets"),
    "issued": ("issued_by", "replaces"),
}
_STATION = "INSERT INTO station (turn, device, name, person, days, is_office, state, key, was, is_awaited) VALUES "
_OPERATION = "INSERT INTO operation VALUES "
_STATEMENTS: Mapping[str, tuple[str, ...]] = {
    **{f"letters that are none in {table}.{name}": (f"UPDATE {table} SET {name} = {_BAD}{_LAST.get(table, '')}",) for table, names in _TEXTS.items() for name in names},
    **{f"escape codes in {table}.{name}": (f"UPDATE {table} SET {name} = {_CODES}{_LAST.get(table, '')}",) for table, names in _TEXTS.items() for name in names[:2]},
    # What lies beside the tables of the program.
    "a view beside them": ("CREATE VIEW mine AS SELECT * FROM job",),
    "a guard beside them": ("CREATE TRIGGER mine AFTER INSERT ON edit BEGIN DELETE FROM issued; END",),
    "a guard on a view": ("CREATE VIEW mine AS SELECT 1 AS a", "CREATE TRIGGER other INSTEAD OF INSERT ON mine BEGIN DELETE FROM issued; END"),
    "a table of words beside them": ("CREATE VIRTUAL TABLE mine USING fts5(a)",),
    "a table of places beside them": ("CREATE VIRTUAL TABLE mine USING rtree(a, b, c)",),
    "a table of the file's own pages": ("CREATE VIRTUAL TABLE mine USING dbstat",),
    "a table with the name of a function": ('CREATE TABLE "pragma_table_info" (a)',),
    "a table with a blank for a name": ('CREATE TABLE " " (a)',),
    "a table named as the job table in capitals": ('CREATE TABLE "JOB " (a)',),
    "an index on what is computed": ("CREATE INDEX mine ON edit (json(command))",),
    "an index that holds part of the rows": ("CREATE INDEX mine ON job (number) WHERE client = 'x'",),
    "counts for the planner": ("ANALYZE", "UPDATE sqlite_stat1 SET stat = '1 1'"),
    "counts of great size": ("ANALYZE", "UPDATE sqlite_stat1 SET stat = '9999999999999 1'"),
    # Tables that are not what they were.
    "a column more": ("ALTER TABLE job ADD COLUMN mine",),
    "a column that is computed, kept": ("ALTER TABLE note ADD COLUMN mine TEXT AS (text || text) VIRTUAL",),
    "a column less": ("ALTER TABLE job DROP COLUMN laid_aside",),
    "a column of another name": ("ALTER TABLE job RENAME COLUMN client TO customer",),
    "a table of another name": ("ALTER TABLE note RENAME TO notes",),
    "a table made anew, looser": ("ALTER TABLE draft RENAME TO was", "CREATE TABLE draft (job_id INTEGER PRIMARY KEY, body, crc)", "INSERT INTO draft SELECT * FROM was", "DROP TABLE was"),
    "bytes where letters are meant": ("ALTER TABLE note RENAME TO was", "CREATE TABLE note (id INTEGER PRIMARY KEY, topic, who, at, text)", "INSERT INTO note SELECT id, CAST(topic AS BLOB), who, at, text FROM was", "DROP TABLE was"),
    "letters where figures are meant": ("ALTER TABLE note RENAME TO was", "CREATE TABLE note (id INTEGER PRIMARY KEY, topic, who, at, text)", "INSERT INTO note SELECT id, topic, who, 'then', text FROM was", "DROP TABLE was"),
    "a figure beyond all": ("ALTER TABLE note RENAME TO was", "CREATE TABLE note (id INTEGER PRIMARY KEY, topic, who, at, text)", "INSERT INTO note SELECT id, topic, who, 9e999, text FROM was", "DROP TABLE was"),
    "a table without its uniqueness": ("ALTER TABLE hand RENAME TO was", "CREATE TABLE hand (job_id, who, updated)", "INSERT INTO hand SELECT * FROM was", "INSERT INTO hand SELECT * FROM was", "DROP TABLE was"),
    # Rows that lead nowhere, or to each other.
    "a draft of no job": ("INSERT INTO draft VALUES (999, '{}', 0)",),
    "a record of no job": ("UPDATE issued SET job_id = 999 WHERE seq = 1",),
    "an edit of no job": ("UPDATE edit SET job_id = 999 WHERE seq = (SELECT max(seq) FROM edit)",),
    "a job that replaces itself": ("UPDATE job SET replaces = id WHERE id = 5",),
    "jobs that replace each other": ("UPDATE job SET replaces = 6 WHERE id = 5", "UPDATE job SET replaces = 5 WHERE id = 6"),
    "records that replace each other": ("UPDATE issued SET replaces = 'A-0004' WHERE number = 'A-0003'",),
    "papers changed about": ("CREATE TEMP TABLE one AS SELECT * FROM paper WHERE number IN ('A-0001', 'A-0003')", "UPDATE paper SET pdf = (SELECT pdf FROM one WHERE one.number = CASE paper.number WHEN 'A-0001' THEN 'A-0003' ELSE 'A-0001' END) WHERE number IN ('A-0001', 'A-0003')"),
    "records changed about": ("CREATE TEMP TABLE one AS SELECT number, body FROM issued", "UPDATE issued SET body = (SELECT body FROM one WHERE one.number = CASE issued.number WHEN 'A-0001' THEN 'A-0003' ELSE 'A-0001' END) WHERE number IN ('A-0001', 'A-0003')"),
    "drafts changed about": ("CREATE TEMP TABLE one AS SELECT * FROM draft", "UPDATE draft SET (body, crc) = (SELECT body, crc FROM one WHERE one.job_id = 12 - draft.job_id) WHERE job_id IN (5, 7)"),
    "trails changed about": ("UPDATE folded_trail SET edits = (SELECT edits FROM folded_trail AS other WHERE other.job_id = 3) WHERE job_id = 1",),
    "a trail that swells": ("UPDATE folded_trail SET edits = zeroblob(60000000) WHERE job_id = 1",),
    "a state of another": ("UPDATE job SET state = 'ready' WHERE id = 6",),
    "issued by its line alone": ("UPDATE job SET state = 'issued' WHERE id = 5",),
    "a draft beside a record": ("INSERT INTO draft SELECT 1, body, crc FROM draft WHERE job_id = 5",),
    "versions beyond the trail": ("UPDATE job SET version = 9223372036854775807 WHERE id = 5",),
    "ids below nothing": ("UPDATE register SET entry = -1 WHERE seq = 1",),
    "numbers beyond counting": ("UPDATE job SET number = 'A-99999999999999999999' WHERE id = 5",),
    # Laptops, an office and what they told each other.
    "an office made up": (f"{_STATION}(1, 'feedfeedfeedfeed', 'ZZ', 'Eve', 9, 1, 'out', 'aa', '', 0)",),
    "a laptop made up": (f"{_STATION}(1, 'feedfeedfeedfeed', '../Z', 'Eve', 99999999999, 0, 'out', '', '', 1)",),
    "a state of a laptop that is none": (f"{_STATION}(1, 'feedfeedfeedfeed', 'ZZ', 'Eve', 9, 0, 'x', 'aa', 'y', 0)",),
    "something done by nobody": (f"{_OPERATION}(1, 'feedfeedfeedfeed', 1, '', 'issue', 'A-0001', 1, '', '2026-03-02', '{{}}', 'x', 1)",),
    "something done that is none": (f"{_OPERATION}(1, 'feedfeedfeedfeed', -1, '', 'x', '../x', -1, '', '', '[[[', '', 7)",),
    "a job held by nobody": ("INSERT INTO holding VALUES ('A-0005', 'feedfeedfeedfeed', 1, '', '', '', '', 0)",),
    "a job held that is not there": ("INSERT INTO holding VALUES ('Z-0001', 'x', -5, 'x', 'x', 'x', 'x', 9)",),
    "a matter of nothing": ("INSERT INTO matter VALUES (1, 'x', 'A-0005', 'y', 'z', 1, 1, 0)",),
    "a job contested": ("INSERT INTO contested VALUES ('A-0005')",),
    "something put aside": ("INSERT INTO operation_aside VALUES ('x', 1)",),
}  # fmt: skip


def _schema(*statements: str) -> Put:
    """The file's own list of its tables altered."""

    def put(path: Path, copy: bytes) -> None:
        path.write_bytes(copy)
        with closing(sqlite3.connect(path, isolation_level=None)) as log:
            log.execute("PRAGMA writable_schema = ON")
            for statement in statements:
                log.execute(statement)

    return put


def _file(made: Callable[[bytes], bytes]) -> Put:
    return lambda path, copy: path.write_bytes(made(copy))


def _zipped(names: tuple[str, ...]) -> Callable[[bytes], bytes]:
    def made(copy: bytes) -> bytes:
        held = io.BytesIO()
        with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as archive:
            for name in names:
                archive.writestr(name, copy)
        return held.getvalue()

    return made


def _laid_out(*pragmas: str) -> Put:
    """The same rows, in pages of another kind."""

    def put(path: Path, copy: bytes) -> None:
        path.write_bytes(copy)
        with closing(sqlite3.connect(path, isolation_level=None)) as log:
            for pragma in pragmas:
                log.execute(pragma)

    return put


def _at(place: int, body: bytes) -> Put:
    return _file(lambda copy: copy[:place] + body + copy[place + len(body) :])


CRAFTED_TABLES: Mapping[str, Put] = {
    **{name: altered(statements) for name, statements in _STATEMENTS.items()},
    # The file itself.
    "a packed copy": _file(_zipped(("log.ohmfolio",))),
    "a packed copy with a path": _file(_zipped(("../../log.ohmfolio", "/tmp/x"))),
    "squeezed": _file(gzip.compress),
    "an archive that swells": _file(lambda copy: gzip.compress(bytes(64 << 20), 9)),
    "a paper instead": _file(lambda copy: b"%PDF-1.7\n" + copy),
    "a link to a copy elsewhere": lambda path, copy: (path.with_suffix(".real").write_bytes(copy), path.symlink_to(path.with_suffix(".real"))),
    "pages that are cleared": _laid_out("PRAGMA auto_vacuum = FULL", "VACUUM"),
    "pages of 512 bytes": _laid_out("PRAGMA page_size = 512", "VACUUM"),
    "pages of 65536 bytes": _laid_out("PRAGMA page_size = 65536", "VACUUM"),
    "a file that says it has a write-ahead file": _at(18, b"\2\2"),
    "a file of a version to come": _at(18, b"\x09\x09"),
    "letters of another width": _at(56, b"\0\0\0\2"),
    "a list of tables of another version": _at(44, b"\0\0\0\1"),
    "free pages that are not there": _at(32, b"\xff\xff\xff\xff\xff\xff\xff\xff"),
    "more pages than there are": _at(28, b"\x7f\xff\xff\xff"),
    "no end of free pages": _at(36, b"\0\0\xff\xff"),
    "a list of tables that leads to itself": _schema("UPDATE sqlite_master SET rootpage = 1 WHERE name = 'note'"),
    "two tables on one page": _schema("UPDATE sqlite_master SET rootpage = (SELECT rootpage FROM sqlite_master WHERE name = 'job') WHERE name = 'note'"),
    "a table on no page": _schema("UPDATE sqlite_master SET rootpage = 99999999 WHERE name = 'note'"),
    "a table without its words": _schema("UPDATE sqlite_master SET sql = '' WHERE name = 'note'"),
    "a table of other words": _schema("UPDATE sqlite_master SET sql = 'CREATE TABLE note (a, b, c)' WHERE name = 'note'"),
    "a guard of other words": _schema("UPDATE sqlite_master SET sql = 'CREATE TRIGGER edit_stays_on_update AFTER UPDATE ON edit BEGIN SELECT 1; END' WHERE name = 'edit_stays_on_update'"),
    "a table of words with other words": _schema("UPDATE sqlite_master SET sql = 'CREATE VIRTUAL TABLE job_fts USING fts5(x, content=''mine'')' WHERE name = 'job_fts'"),
    "a rule that asks for a file": _schema("UPDATE sqlite_master SET sql = replace(sql, 'text TEXT NOT NULL', 'text TEXT NOT NULL CHECK (load_extension(''/tmp/x''))') WHERE name = 'note'"),
    "a value made when it is not given": _schema("UPDATE sqlite_master SET sql = replace(sql, 'text TEXT NOT NULL', 'text TEXT NOT NULL DEFAULT (randomblob(900000000))') WHERE name = 'note'"),
    "an order of letters of nobody": _schema("UPDATE sqlite_master SET sql = replace(sql, 'topic TEXT NOT NULL', 'topic TEXT NOT NULL COLLATE mine') WHERE name = 'note'"),
    "holes in it": lambda path, copy: (path.write_bytes(copy), os.truncate(path, len(copy) - 4096 * 3), os.truncate(path, len(copy))),
}  # fmt: skip
