"""Which jobs an earlier run of `tend` proved, and which of them are, to the byte, as they were then.

A mark of all that a job hangs on stands in a small file beside the log, written as the jobs are proved, those issued here as
they are issued: a run that is stopped goes on where it was, and the next one looks at what changed. The mark holds the chain of the ledger at the job's
last line, so nothing that was kept before can have been altered either; that the ledger agrees with what was kept is
looked at every time. Whoever may write to that folder may write marks as well: a run that trusts none is `--anew`.
"""

import hashlib
import json
import os
from collections.abc import Iterable, Iterator
from contextlib import closing, suppress
from functools import cache
from pathlib import Path
from typing import Any, Self

from domain.duties.duty_days import rules_version
from domain.duties.noted import TOPIC
from domain.log.job_log import JobLogError
from storage.access import make_file
from storage.driver import Connection, sqlite3
from storage.log_file import LogFile
from storage.set_by import set_by

PROVED = "ohmfolio.proved"
_PAGE = 500
_AT_ONCE = 100
"""Marks written together: so many jobs are gone through again where a look is stopped in the middle."""
_KEEP = "INSERT OR REPLACE INTO proved (number, mark) VALUES (?, ?)"
_MARKS = f"""
SELECT job.id, job.number, job.*, job_text.client, job_text.place, job_text.other, job_text.facets,
    draft.body, draft.crc, hex(issued.sha), hex(issued.pdf_sha), issued.issued_by, issued.issued_at, issued.replaces,
    (SELECT number FROM issued AS later WHERE later.replaces = job.number),
    (SELECT hex(chain) FROM ledger WHERE kind = 'edit'
        AND row = (SELECT seq FROM edit WHERE job_id = job.id ORDER BY version DESC LIMIT 1)),
    (SELECT hex(chain) FROM ledger WHERE kind = 'issued' AND row = issued.seq),
    (SELECT json_group_array(json_array(duty, by, counted, other, kept, done_on, done_who, done_word)) FROM duty_day
        WHERE job_id = job.id),
    duty_job.asks, duty_job.contact,
    (SELECT max(id) FROM note WHERE topic = '{TOPIC}'
        AND CASE WHEN json_valid(text) THEN text ->> '$.number' END = job.number),
    CASE WHEN issued.seq IS NULL THEN (SELECT max(seq) FROM register) END
FROM job LEFT JOIN job_text ON job_text.id = job.id LEFT JOIN draft ON draft.job_id = job.id
    LEFT JOIN issued ON issued.job_id = job.id LEFT JOIN duty_job ON duty_job.job_id = job.id
"""


class ProvedBefore:
    """The marks of one log, as this program makes them; of another version's none is the same."""

    def __init__(self, kept: Connection | None) -> None:
        self._kept = kept
        self._now: dict[str, bytes] = {}
        self._waiting: list[tuple[str, bytes]] = []
        self.unchanged: frozenset[str] = frozenset()
        """Numbers of the jobs that are as they were when they were proved."""

    @classmethod
    def beside(cls, file: LogFile, *, trusted: bool) -> Self:
        """Those kept beside a log; none where none can be kept, and none believed where they are not `trusted`."""
        kept = None
        with suppress(OSError, sqlite3.Error):
            kept = _opened(file.home / PROVED)
        found = cls(kept)
        found._now = dict(_marks(file))
        if trusted and kept:
            with suppress(sqlite3.Error):
                before = kept.execute("SELECT number, mark FROM proved").fetchall()
                found.unchanged = frozenset(number for number, mark in before if found._now.get(number) == mark)
        return found

    def proved(self, number: str, seen: bytes = b"") -> None:
        """Nothing was wrong with a job, and nothing left unproved; `seen` is its mark where it was looked at by itself."""
        if (mark := self._now.get(number)) and seen in {b"", mark}:
            self._waiting.append((number, mark))
            if len(self._waiting) >= _AT_ONCE:
                self._write()

    def withhold(self, numbers: Iterable[str]) -> None:
        """Something else is wrong with these; they are not marked, whatever is found of them besides."""
        for number in numbers:
            self._now.pop(number, None)

    def close(self) -> None:
        """Write what was proved last; the log itself is never written to."""
        self._write()
        if self._kept:
            self._kept.close()
            self._kept = None

    def _write(self) -> None:
        if self._kept:
            with suppress(sqlite3.Error):
                self._kept.execute("BEGIN")
                self._kept.executemany(_KEEP, self._waiting)
                self._kept.execute("COMMIT")
        self._waiting.clear()


def keep_mark(home: Path, number: str, mark: bytes) -> None:
    """Keep the mark of one job beside its log, where that can be done."""
    with suppress(OSError, sqlite3.Error), closing(_opened(home / PROVED)) as kept:
        kept.execute(_KEEP, (number, mark))


def _opened(path: Path) -> Connection:
    if not path.exists():
        os.close(make_file(path))
    connection = sqlite3.connect(path, timeout=1, isolation_level=None)
    try:
        connection.execute(
            "CREATE TABLE IF NOT EXISTS proved (number TEXT PRIMARY KEY, mark BLOB NOT NULL) WITHOUT ROWID"
        )
    except sqlite3.DatabaseError:
        connection.close()
        raise
    return connection


def marks_of(file: LogFile, numbers: Iterable[str]) -> dict[str, bytes]:
    """The marks of some jobs, as they are now."""
    return dict(
        map(
            _marked,
            file.run(f"{_MARKS} WHERE job.number IN (SELECT value FROM json_each(?))", (json.dumps([*numbers]),)),
        )
    )


def _marks(file: LogFile) -> Iterator[tuple[str, bytes]]:
    """What each job hangs on, made small; nothing where it cannot be read."""
    after = 0
    with suppress(JobLogError):
        while rows := file.run(f"{_MARKS} WHERE job.id > ? ORDER BY job.id LIMIT ?", (after, _PAGE)):
            yield from map(_marked, rows)
            after = rows[-1][0]


def _marked(row: tuple[Any, ...]) -> tuple[str, bytes]:
    _, number, *held = row
    return number, hashlib.sha256(_program() + json.dumps(held).encode()).digest()


@cache
def _program() -> bytes:
    return f"{set_by()} {rules_version()}".encode()
