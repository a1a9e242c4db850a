"""The first page of what is due, in a process of its own: seconds, once the log is open."""

import sys
import time
from pathlib import Path

from domain.log.due_days import DueAsked
from domain.log.due_list import due_in
from storage.sqlite_job_log import SqliteJobLog

if __name__ == "__main__":
    log = SqliteJobLog.open(Path(sys.argv[1]))
    began = time.perf_counter()
    assert len(list(due_in(log, DueAsked(limit=50)))) == 50
    sys.stdout.write(f"{time.perf_counter() - began}\n")
