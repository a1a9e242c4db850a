"""The rows of a log that `many_jobs` made, put straight into a server: in minutes, and past what protects it.

What jobs are found by is taken as the log in the folder has it, so that no job has to be read; a move makes it anew.
"""

from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import psycopg

from storage.driver import Connection, sqlite3
from storage.duty_rows import DAY_COLUMNS
from storage.log_file import FILE_NAME
from storage.moving.parts import JOB, PAPER, PARTS, LogPart
from storage.moving.server_end import NUMBERED
from storage.postgres.layout import brought_up
from storage.postgres.postgres_vocabulary import MARK
from storage.postgres.server_address import ServerAddress
from storage.postgres.words import words_in

_FOUND_BY = (
    LogPart("duty_day", ("job_id", *DAY_COLUMNS.split(", "))),
    LogPart("duty_job", ("job_id", "asks", "contact")),
    LogPart("duty_rules", ("version",)),
)
_BESIDE = """
SELECT indexrelid::regclass::text, pg_get_indexdef(indexrelid) FROM pg_index JOIN pg_class ON pg_class.oid = indrelid
WHERE relnamespace = to_regnamespace(%s) AND NOT EXISTS (SELECT 1 FROM pg_constraint WHERE conindid = indexrelid)
"""
"""Indexes that no key of a table needs."""


def fill_server(home: Path, address: ServerAddress) -> None:
    """Have a server that nothing is in yet hold the log of a folder."""
    with (
        closing(sqlite3.connect(home / FILE_NAME)) as log,
        psycopg.connect(address.url, autocommit=True) as server,
    ):
        server.execute(f"SET search_path = {address.schema}".encode())
        brought_up(server, address)
        server.execute("SET session_replication_role = replica; SET maintenance_work_mem = '1GB'")
        beside = server.execute(_BESIDE, (address.schema,)).fetchall()
        for name, _ in beside:
            server.execute(f"DROP INDEX {name}".encode())
        server.execute("DELETE FROM device")
        for part in (*PARTS, *_FOUND_BY):
            if part is not PAPER:
                _copied(server, part.name, _columns(part), _rows(log, part))
        _copied(server, "job_text", ("job_id", "words"), _words(log))
        _copied(server, "near", ("gap", "word"), _near(log))
        for _, made in beside:
            server.execute(made.encode())
        _number_on(server, log)
        tables = server.execute("SELECT tablename FROM pg_tables WHERE schemaname = %s", (address.schema,)).fetchall()
        server.execute(f"VACUUM ANALYZE {', '.join(table for (table,) in tables)}".encode())


def _columns(part: LogPart) -> tuple[str, ...]:
    return (*part.columns, "duties") if part is JOB else part.columns


def _rows(log: Connection, part: LogPart) -> Iterator[tuple[Any, ...]]:
    columns = ", ".join((*part.columns, *(["''"] if part is JOB else [])))
    yield from log.execute(f"SELECT {columns} FROM {part.name} ORDER BY {part.key}")


def _words(log: Connection) -> Iterator[tuple[int, str]]:
    for job_id, *texts in log.execute("SELECT id, client, place, other, facets FROM job_text ORDER BY id"):
        words = words_in(dict(zip(("client", "place", "other", "facets"), texts, strict=True)))
        yield job_id, " ".join(f"'{word}'" for word in words)


def _near(log: Connection) -> Iterator[tuple[str, str]]:
    for gap, word in log.execute("SELECT gap, word FROM near"):
        yield gap.replace("\0", MARK), word


def _copied(server: psycopg.Connection, table: str, columns: tuple[str, ...], rows: Iterator[tuple[Any, ...]]) -> None:
    with server.cursor().copy(f"COPY {table} ({', '.join(columns)}) FROM STDIN".encode()) as into:
        for row in rows:
            into.write_row(row)


def _number_on(server: psycopg.Connection, log: Connection) -> None:
    for table, column in NUMBERED:
        last = f"(SELECT 1 + coalesce(max({column}), 0) FROM {table})"
        server.execute(f"SELECT setval(pg_get_serial_sequence('{table}', '{column}'), {last}, false)".encode())
    ((following,),) = log.execute("SELECT next_op FROM device WHERE is_here").fetchall()
    server.execute("SELECT setval('edit_name', %s, false)", (following,))
