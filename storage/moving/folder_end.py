"""A log in a folder, as one end of a move."""

from collections.abc import Sequence
from contextlib import closing
from pathlib import Path
from typing import Any

from domain.log.job_log import JobLogError
from storage.access import make_folder
from storage.driver import Connection, sqlite3
from storage.files import sync_folder, write_part
from storage.issued_papers import KEPT, IssuedPapers
from storage.layout import LINES
from storage.moving.parts import DEVICE, JOB, PAPER, LogPart, Row, last_ops
from storage.witnessing import WITNESS_TASK


class FolderEnd:
    """Fulfils `storage.moving.parts.LogEnd` by a connection of its own to the file of a log that nobody has open."""

    def __init__(self, home: Path, connection: Connection) -> None:
        self._home = home
        self._connection = connection
        self._papers = IssuedPapers(home)

    def rows(self, part: LogPart, after: Row | None, limit: int) -> list[Row]:
        """The rows after a key, in the order of the keys."""
        if part is PAPER:
            found = self._asked(
                "SELECT seq, number FROM issued WHERE seq > ? ORDER BY seq LIMIT ?", (*(after or (0,)), limit)
            )
            return [(seq, number, self._pdf(number)) for seq, number in found]
        beyond = f"WHERE ({part.key}) > ({', '.join('?' * part.keys)})" if after else ""
        return self._asked(
            f"SELECT {', '.join(part.columns)} FROM {part.name} {beyond} ORDER BY {part.key} LIMIT ?",
            (*(after or ()), limit),
        )

    def last(self, part: LogPart) -> Row | None:
        """The key of the last row that is there; of papers, the first is looked at again."""
        if part is PAPER:
            return None
        found = self._asked(f"SELECT {part.key} FROM {part.name} ORDER BY {part.last_first} LIMIT 1", ())
        return found[0] if found else None

    def add(self, part: LogPart, rows: Sequence[Row]) -> None:
        """Keep rows, all of them or none; a paper that is there already stays."""
        if part is PAPER:
            self._add_papers(rows)
            return
        columns = part.columns
        if part is JOB:
            at = part.columns.index("state")
            rows = [(*row[:at], "draft", *row[at + 1 :]) for row in rows]
        if part is DEVICE:
            # What a log begins with gives way.
            self._write("DELETE FROM device WHERE next_number >= ?", [(1,)])
            columns, rows = (*columns, "next_op"), [(*row, 1) for row in rows]
        self._write(f"INSERT INTO {part.name} ({', '.join(columns)}) VALUES ({', '.join('?' * len(columns))})", rows)

    def set_states(self, rows: Sequence[Row]) -> None:
        """Have jobs be what they are."""
        self._write("UPDATE job SET state = ?2 WHERE id = ?1", rows)

    def finish(self) -> None:
        """Number on from what was moved, and have the lines and search words made once the log is opened."""
        last = last_ops(self)
        devices = [(device, last.get(device, 0)) for (device,) in self._asked("SELECT id FROM device", ())]
        self._write("UPDATE device SET next_op = 1 + ?2 WHERE id = ?1", devices)
        self._write("INSERT OR IGNORE INTO pending_task (name) VALUES (?)", [(LINES,), (WITNESS_TASK,)])

    def _add_papers(self, rows: Sequence[Row]) -> None:
        make_folder(self._home / KEPT)
        for _, number, pdf in rows:
            path = self._papers.path(number)
            part = path.with_name(f".{number}.part")
            if not path.exists():
                part.unlink(missing_ok=True)
                write_part(part, pdf)
                part.rename(path)
        sync_folder(self._home / KEPT)

    def _pdf(self, number: str) -> bytes:
        path = self._papers.path(number)
        try:
            return path.read_bytes()
        except OSError as trouble:
            raise JobLogError(
                f"{path} cannot be read: {trouble.strerror}. Restore it from a copy; nothing was moved."
            ) from trouble

    def _asked(self, statement: str, values: tuple[Any, ...]) -> list[Row]:
        return self._connection.execute(statement, values).fetchall()

    def _write(self, statement: str, rows: Sequence[Row]) -> None:
        with closing(self._connection.cursor()) as cursor:
            cursor.execute("BEGIN IMMEDIATE")
            try:
                cursor.executemany(statement, rows)
                cursor.execute("COMMIT")
            except sqlite3.Error:
                cursor.execute("ROLLBACK")
                raise
