"""Jobs in the log: read as they stand, put with each edit, stepped through by the edits of a person."""

from collections.abc import Iterable
from functools import partial

from domain.editing.commands import COMMAND
from domain.editing.undo import Edit
from domain.log.job_log import JobLine, no_such_job
from domain.log.store import StoredJob, TrailEntry
from storage.errors import not_issued_here
from storage.ledger import enter, vouches_for
from storage.ledger_entries import EDIT
from storage.line_rows import line_values, microseconds
from storage.log_file import LogFile
from storage.rows import checksum, draft_of, edit_from, stored_from
from storage.search_text import text_values
from storage.trails import fold, trail_of
from storage.vocabulary import learn

_STORED = """
SELECT job.version, job.state, old.number, (SELECT later.number FROM job AS later WHERE later.replaces = job.id),
    job.put_right, draft.body, draft.crc, issued.body, issued.sha
FROM job LEFT JOIN draft ON draft.job_id = job.id LEFT JOIN issued ON issued.job_id = job.id
    LEFT JOIN job AS old ON old.id = job.replaces
WHERE job.number = ?
"""
_RECORD = 7
"""Where in such a row the body of an issued record stands."""
_INSERT = """
INSERT INTO job (number, version, client, premises, form_set, state, outcome, open_snags, replaces, updated, due, put_right,
    day, laid_aside)
VALUES (:number, :version, :client, :premises, :form_set, :state, :outcome, :open_snags,
    (SELECT id FROM job WHERE number = :replaces), :updated, :due, :put_right, :day, :laid_aside)
RETURNING id
"""
_UPDATE = """
UPDATE job SET version = :version, client = :client, premises = :premises, form_set = :form_set, state = :state,
    outcome = :outcome, open_snags = :open_snags, updated = :updated, due = :due, put_right = :put_right,
    day = :day, laid_aside = :laid_aside
WHERE number = :number RETURNING id
"""
_INSERT_DRAFT = "INSERT INTO draft (job_id, body, crc) VALUES (:id, :body, :crc)"
_UPDATE_DRAFT = "UPDATE draft SET body = :body, crc = :crc WHERE job_id = :id"
_WORDS = """
INSERT INTO job_text (id, client, place, other, facets) VALUES (:id, :client, :place, :other, :facets)
ON CONFLICT (id) DO UPDATE SET client = excluded.client, place = excluded.place, other = excluded.other,
    facets = excluded.facets
WHERE (job_text.client, job_text.place, job_text.other, job_text.facets)
    IS NOT (excluded.client, excluded.place, excluded.other, excluded.facets)
RETURNING id
"""


class SqliteJobs:
    """What a store is asked of whole jobs, in one file. Writes are made inside a write of the file."""

    def __init__(self, file: LogFile) -> None:
        self.get = partial(get, file)
        self.put = partial(put, file)
        self._file = file

    def edits(self, number: str, who: str) -> Iterable[Edit]:
        """What somebody did to a job, oldest first."""
        return (edit_from(each) for each in trail_of(self._file, number) if each.who == who)


def get(file: LogFile, number: str) -> StoredJob | None:
    """The job with this number, as it stands now."""
    row = file.first(_STORED, (number,))
    stored = stored_from(number, row) if row else None
    if row and row[_RECORD] is not None and not vouches_for(file, number):
        raise not_issued_here(number)
    return stored


def require(file: LogFile, number: str) -> StoredJob:
    """The job with this number; raises where there is none."""
    found = get(file, number)
    if found is None:
        raise no_such_job(number)
    return found


def put(file: LogFile, stored: StoredJob, line: JobLine, *entries: TrailEntry) -> None:
    """Keep a job as it stands now, its line, its search words and the edits that made it so. Call it inside a write."""
    begun = not stored.version
    values = line_values(line) | {"version": stored.version + len(entries), "replaces": stored.replaces}
    ((job_id,),) = file.run(_INSERT if begun else _UPDATE, values)
    is_issue = False
    if stored.is_issued:
        body = ""
        is_issue = bool(file.run("DELETE FROM draft WHERE job_id = ? RETURNING job_id", (job_id,)))
    else:
        body = draft_of(stored.job)
        file.run(_INSERT_DRAFT if begun else _UPDATE_DRAFT, {"id": job_id, "body": body, "crc": checksum(body)})
    put_words(file, job_id, text_values(stored.job, line))
    for version, entry in enumerate(entries, stored.version + 1):
        _append_trail(file, job_id, version, entry, body if version == 1 else "")
    if is_issue:
        fold(file, job_id)


def put_words(file: LogFile, job_id: int, words: dict[str, str]) -> None:
    """Have a job found by its words; nothing is written where they are the same. Call it inside a write."""
    if file.run(_WORDS, words | {"id": job_id}):
        learn(file, words)


def _append_trail(file: LogFile, job_id: int, version: int, entry: TrailEntry, begun: str) -> None:
    at = microseconds(entry.at)
    ((device, counter),) = file.run(
        "UPDATE device SET next_op = next_op + 1 WHERE is_here = 1 RETURNING id, next_op - 1"
    )
    ((seq,),) = file.run(
        "INSERT INTO edit (op, job_id, version, at, who, what, command, begun, changes, undoes, redoes)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) RETURNING seq",
        (
            entry.op or f"{device}:{counter}",
            job_id,
            version,
            at,
            entry.who,
            entry.what,
            COMMAND.dump_json(entry.command).decode() if entry.command else None,
            begun or None,
            entry.changes or None,
            entry.undoes or None,
            entry.redoes or None,
        ),
    )
    enter(file, EDIT, seq)
    file.run("UPDATE hand SET updated = ? WHERE job_id = ?", (at, job_id))
    file.run("INSERT OR IGNORE INTO hand (job_id, who, updated) VALUES (?, ?, ?)", (job_id, entry.who, at))
