"""Trails of jobs on a server: a row an edit, and those of issued jobs folded into one block each.

People add to trails and take nothing away, so nobody folds at issue: whoever owns the schema does, when the log is tended.
"""

from collections.abc import Iterator

from domain.log.replay import ISSUED
from storage.postgres.log_server import LogServer
from storage.trail_block import COLUMNS, EditRow, FoldedTrail, can_be_folded, folded, unfolded

_ROWS = f"""
SELECT {COLUMNS} FROM edit WHERE job_id = (SELECT id FROM job WHERE number = %s) AND version > %s ORDER BY version
"""
_BLOCK = """
SELECT edits FROM folded_trail WHERE job_id = (SELECT id FROM job WHERE number = %s) AND last > %s
"""
_OPEN = """
SELECT id, number FROM job WHERE id > %s AND state IN ('issued', 'replaced')
    AND NOT EXISTS (SELECT 1 FROM folded_trail WHERE job_id = job.id) ORDER BY id LIMIT %s
"""
_LOCK = "SELECT 1 FROM job WHERE id = %s FOR NO KEY UPDATE"
_BEFORE_ISSUE = f"""
SELECT {COLUMNS} FROM edit WHERE job_id = %(id)s AND version < (
    SELECT coalesce(max(version), (SELECT version FROM job WHERE id = %(id)s)) FROM edit
    WHERE job_id = %(id)s AND what = %(issued)s AND command IS NULL AND changes IS NULL AND begun IS NULL)
    AND NOT EXISTS (SELECT 1 FROM folded_trail WHERE job_id = %(id)s)
ORDER BY version
"""
_FOLD = "INSERT INTO folded_trail (job_id, begun_as, last, edits) VALUES (%s, %s, %s, %s)"
_MAY = """
SELECT has_table_privilege('folded_trail', 'INSERT') AND has_table_privilege('edit', 'DELETE')
"""
_EVERY = """
SELECT job_id, number, last, edits FROM folded_trail JOIN job ON job.id = job_id WHERE job_id > %s ORDER BY job_id LIMIT %s
"""
_PAGE = 100


def trail_of(server: LogServer, number: str, after: int = 0) -> list[EditRow]:
    """The edits of a job that came after a version, oldest first, whichever way they are kept."""
    before = [row for row in folded_of(server, number, after) if row.version > after]
    return [*before, *map(EditRow._make, server.run(_ROWS, (number, after)))]


def folded_of(server: LogServer, number: str, after: int = 0) -> list[EditRow]:
    """The edits of a job that are folded; none where none came after a version."""
    block = server.first(_BLOCK, (number, after))
    return unfolded(block[0], number) if block else []


def fold_all(server: LogServer) -> int:
    """Fold the trails of issued jobs, where whoever asks may; how many. Where it is stopped, the next call goes on."""
    done, after = 0, 0
    if server.run(_MAY) != [(True,)]:
        return 0
    while waiting := server.run(_OPEN, (after, _PAGE)):
        done += sum(_folded(server, job_id) for job_id, _ in waiting)
        after = waiting[-1][0]
    return done


def _folded(server: LogServer, job_id: int) -> bool:
    with server.transaction((_LOCK, (job_id,))):
        rows = [*map(EditRow._make, server.run(_BEFORE_ISSUE, {"id": job_id, "issued": ISSUED}))]
        if not can_be_folded(rows):
            return False
        server.run(_FOLD, (job_id, rows[0].op, len(rows), folded(rows)))
        server.run("DELETE FROM edit WHERE job_id = %s AND version <= %s", (job_id, len(rows)))
    return True


def folded_trails(server: LogServer) -> Iterator[FoldedTrail]:
    """Each of the log, read one by one."""
    after = 0
    while rows := server.run(_EVERY, (after, _PAGE)):
        yield from map(FoldedTrail.of, rows)
        after = rows[-1][0]
