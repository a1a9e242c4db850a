"""A job that was issued just now is looked at as `tend` looks at it, and marked as proved: so the first `tend` of a log need not.

A log that this program filled is proved as it grows, a few hundredths of a second a paper; what was brought in, heard from others,
altered since, or issued by another version, is looked at when somebody asks.
"""

from contextlib import closing, suppress
from pathlib import Path

from domain.log.job_log import JobLogError
from storage.driver import sqlite3
from storage.log_file import FILE_NAME, LogFile
from storage.reading_alone import connected_to_read
from storage.upkeep.job_history import looks_at
from storage.upkeep.proved_before import keep_mark, marks_of

_EDITS_MAX = 1_000
"""A job of more edits is left to `tend`: nobody is to wait for it."""


def prove_issued(home: Path, number: str) -> None:
    """Keep the mark of a job that was issued just now, where nothing is wrong with it; never stands in anybody's way."""
    with suppress(JobLogError, OSError, sqlite3.Error), closing(connected_to_read(home / FILE_NAME)) as connection:
        file = LogFile(home, connection)
        with file.reading():
            edits = file.first("SELECT version FROM job WHERE number = ?", (number,))
            if not edits or edits[0] > _EDITS_MAX:
                return
            mark = marks_of(file, (number,)).get(number)
            (look,) = looks_at(file, (number,))
        if mark and not look.found and not look.is_astray:
            keep_mark(home, number, mark)
