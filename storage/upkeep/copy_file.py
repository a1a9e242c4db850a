"""A copy of the log as one file: looked into, and proved to be whole."""

from collections.abc import Generator, Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from domain.log.job_log import JobLogError
from domain.log.upkeep import CopyProof
from storage.driver import Connection, sqlite3
from storage.errors import DamagedError, as_job_log_error
from storage.layout import check_guards, needs_migrating
from storage.log_file import LogFile
from storage.rows import checksum
from storage.upkeep.records import faults_of_records, proof_of

PAPERS = "CREATE TABLE paper (number TEXT PRIMARY KEY, pdf BLOB NOT NULL) STRICT"
"""The issued papers, in a copy that holds them."""
_PAGE = 500


@contextmanager
def opened(path: Path, named: Path | None = None) -> Generator[Connection]:
    """A copy, to be read and nothing else."""
    try:
        with closing(
            sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True, isolation_level=None)
        ) as connection:
            yield connection
    except (OSError, sqlite3.Error) as trouble:
        raise _about(named or path, trouble) from trouble


def proved(path: Path, *, named: Path | None = None) -> CopyProof:
    """What a copy holds, when its pages, drafts, issued records and guards are whole; JobLogError when not.

    `named` is what the person knows it by, where that is another file.
    """
    with opened(path, named) as connection:
        file = LogFile(path, connection)
        path = named or path
        needs_migrating(connection, path)
        check_guards(connection, path)
        if file.run("PRAGMA quick_check(1)") != [("ok",)]:
            raise DamagedError(f"{path} is damaged. Nothing has been changed; take another copy.")
        for fault in faults_of_records(file):
            raise DamagedError(f"{path} is no copy to go by: {fault.says} Nothing has been changed.")
        for job_id in _altered_drafts(file):
            of = file.first("SELECT number FROM job WHERE id = ?", (job_id,))
            what = f"the draft {of[0]} is not as it was saved" if of else "it holds a draft of no job"
            raise DamagedError(f"{path} is no copy to go by: {what}.")
        return proof_of(file)


def holds_papers(connection: Connection) -> bool:
    """The copy was made with the issued papers in it."""
    return connection.execute("SELECT 1 FROM sqlite_master WHERE name = 'paper'").fetchall() != []


def _altered_drafts(file: LogFile) -> Iterator[int]:
    after = 0
    while rows := file.run(
        "SELECT job_id, body, crc FROM draft WHERE job_id > ? ORDER BY job_id LIMIT ?", (after, _PAGE)
    ):
        yield from (job_id for job_id, body, crc in rows if checksum(body) != crc)
        after = rows[-1][0]


def _about(path: Path, trouble: Exception) -> JobLogError:
    said = as_job_log_error(trouble, path)
    if isinstance(said, DamagedError):
        return DamagedError(f"{path} is damaged, or no copy of a job log. Nothing has been changed.")
    return JobLogError(f"{path} cannot be read as a copy of a job log. Nothing has been changed.")
