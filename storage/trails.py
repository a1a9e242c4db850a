"""Trails of jobs in the file of a log: a row an edit while a job is a draft, folded into one block once it is issued.

What follows an issue stays in rows of its own, the issue itself first: lists and marks go by the newest edit, and SQLite
would give the number of the newest row anew once that is gone.
"""

from collections.abc import Iterator

from storage.log_file import LogFile
from storage.trail_block import COLUMNS, EditRow, FoldedTrail, can_be_folded, folded, unfolded

_ROWS = (
    f"SELECT {COLUMNS} FROM edit WHERE job_id = (SELECT id FROM job WHERE number = ?) AND version > ? ORDER BY version"
)
_BLOCK = """
SELECT edits FROM folded_trail WHERE job_id = (SELECT id FROM job WHERE number = ?) AND last > ?
"""
_BEFORE_ISSUE = f"""
SELECT {COLUMNS} FROM edit WHERE job_id = ?1 AND version < (
    SELECT coalesce(max(version), (SELECT version FROM job WHERE id = ?1)) FROM edit
    WHERE job_id = ?1 AND what = ?2 AND command IS NULL AND changes IS NULL AND begun IS NULL)
ORDER BY version
"""
_OPEN = """
SELECT id, number FROM job WHERE id > ? AND state IN ('issued', 'replaced')
    AND NOT EXISTS (SELECT 1 FROM folded_trail WHERE job_id = job.id) ORDER BY id LIMIT ?
"""
_PAGE = 100
_AT_ONCE = 20
"""Trails folded in one write: nobody waits for long."""


def trail_of(file: LogFile, number: str, after: int = 0) -> list[EditRow]:
    """The edits of a job that came after a version, oldest first, whichever way they are kept."""
    before = [row for row in folded_of(file, number, after) if row.version > after]
    return [*before, *(EditRow._make(row) for row in file.run(_ROWS, (number, after)))]


def folded_of(file: LogFile, number: str, after: int = 0) -> list[EditRow]:
    """The edits of a job that are folded; none where none came after a version."""
    block = file.first(_BLOCK, (number, after))
    return unfolded(block[0], number) if block else []


def fold(file: LogFile, job_id: int) -> bool:
    """Fold what was done to a job before it was issued; whether there was anything. Call it inside a write."""
    # The first screen reads trails without what it takes to follow one.
    from domain.log.replay import ISSUED

    rows = [EditRow._make(row) for row in file.run(_BEFORE_ISSUE, (job_id, ISSUED))]
    if not can_be_folded(rows):
        return False
    file.run(
        "INSERT INTO folded_trail (job_id, begun_as, last, edits) VALUES (?, ?, ?, ?)",
        (job_id, rows[0].op, len(rows), folded(rows)),
    )
    file.run("DELETE FROM edit WHERE job_id = ? AND version <= ?", (job_id, len(rows)))
    return True


def fold_all(file: LogFile) -> int:
    """Fold the trails of jobs that an earlier layout issued; how many. Where it is stopped, the next call goes on."""
    done, after = 0, 0
    while waiting := file.run(_OPEN, (after, _AT_ONCE)):
        with file.writing():
            done += sum(fold(file, job_id) for job_id, _ in waiting)
        after = waiting[-1][0]
    return done


def folded_trails(file: LogFile) -> Iterator[FoldedTrail]:
    """Each of the log, read one by one."""
    after = 0
    while rows := file.run(
        "SELECT job_id, number, last, edits FROM folded_trail JOIN job ON job.id = job_id WHERE job_id > ?"
        " ORDER BY job_id LIMIT ?",
        (after, _PAGE),
    ):
        yield from map(FoldedTrail.of, rows)
        after = rows[-1][0]
