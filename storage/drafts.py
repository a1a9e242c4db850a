"""Jobs in the log: read as they stand, begun with a number, and kept with each edit."""

from dataclasses import dataclass, replace
from datetime import datetime

from domain.editing.commands import COMMAND, Command
from domain.editing.undo import kept
from domain.job.job import Job
from domain.job.start import as_draft
from domain.log.job_log import State
from domain.log.log_line import line_of
from storage.errors import no_such_job
from storage.line_rows import line_values, microseconds
from storage.log_file import LogFile
from storage.rows import Held, checksum, held_from
from storage.search_text import text_values
from storage.vocabulary import learn

_HELD = """
SELECT job.id, job.version, job.state, job.replaces, job.put_right, draft.body, draft.crc, issued.body, issued.sha
FROM job LEFT JOIN draft ON draft.job_id = job.id LEFT JOIN issued ON issued.job_id = job.id
WHERE job.number = ?
"""


@dataclass(frozen=True, slots=True)
class DraftEntry:
    """What the trail keeps of one edit."""

    who: str
    at: datetime
    what: str
    command: Command | None = None
    begun: str = ""
    """The draft a job began with."""
    changes: str = ""
    undoes: int = 0
    redoes: int = 0


def held(file: LogFile, number: str) -> Held | None:
    """The job with this number, as it stands now."""
    row = file.first(_HELD, (number,))
    return held_from(number, row) if row else None


def must_hold(file: LogFile, number: str) -> Held:
    """The job with this number; raises where there is none."""
    found = held(file, number)
    if found is None:
        raise no_such_job(number)
    return found


def begin(file: LogFile, job: Job, *, who: str, at: datetime, what: str, replaces: int | None = None) -> Job:
    """Keep a new draft under the next number of this machine. Call it inside a write."""
    (prefix, counter), *_ = file.run(
        "UPDATE device SET next_number = next_number + 1 WHERE is_here = 1 RETURNING prefix, next_number - 1"
    )
    numbered = as_draft(job).model_copy(update={"number": f"{prefix}-{counter:04d}"})
    line = line_of(numbered, updated=at)
    body = numbered.model_dump_json()
    ((job_id,),) = file.run(
        "INSERT INTO job (number, version, client, premises, form_set, state, outcome, open_snags, replaces, updated, due)"
        " VALUES (:number, 1, :client, :premises, :form_set, :state, :outcome, :open_snags, :replaces, :updated, :due)"
        " RETURNING id",
        line_values(line) | {"replaces": replaces},
    )
    file.run("INSERT INTO draft (job_id, body, crc) VALUES (?, ?, ?)", (job_id, body, checksum(body)))
    words = text_values(numbered, line)
    file.run(
        "INSERT INTO job_text (id, client, place, other, facets) VALUES (:id, :client, :place, :other, :facets)",
        words | {"id": job_id},
    )
    learn(file, words)
    _trace(file, job_id, DraftEntry(who, at, what, begun=body), 1)
    return numbered


def keep(file: LogFile, before: Held, after: Job, entry: DraftEntry) -> None:
    """Keep an edit, and the draft it led to. Call it inside a write that read `before`."""
    body = after.model_dump_json()
    file.run("UPDATE draft SET body = ?, crc = ? WHERE job_id = ?", (body, checksum(body), before.id))
    note(file, before, after, replace(entry, changes=kept(before.job, after)))


def note(file: LogFile, before: Held, after: Job, entry: DraftEntry, *, replaced: bool = False) -> None:
    """Add to the trail of a job, and bring its line and search words up to date. Call it inside a write."""
    version = before.version + 1
    line = line_of(after, updated=entry.at, replaced=replaced, put_right=before.put_right)
    file.run(
        "UPDATE job SET version = :version, client = :client, premises = :premises, form_set = :form_set,"
        " state = :state, outcome = :outcome, open_snags = :open_snags, updated = :updated, due = :due"
        " WHERE id = :id",
        line_values(line) | {"id": before.id, "version": version},
    )
    words = text_values(after, line)
    if file.run(
        "UPDATE job_text SET client = :client, place = :place, other = :other, facets = :facets WHERE id = :id"
        " AND (client, place, other, facets) IS NOT (:client, :place, :other, :facets) RETURNING id",
        words | {"id": before.id},
    ):
        learn(file, words)
    _trace(file, before.id, entry, version)


def is_issued(state: State) -> bool:
    """There is a paper."""
    return state in {State.ISSUED, State.REPLACED}


def _trace(file: LogFile, job_id: int, entry: DraftEntry, version: int) -> None:
    at = microseconds(entry.at)
    ((device, operation),) = file.run(
        "UPDATE device SET next_op = next_op + 1 WHERE is_here = 1 RETURNING id, next_op - 1"
    )
    file.run(
        "INSERT INTO edit (op, job_id, version, at, who, what, command, begun, changes, undoes, redoes)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        (
            f"{device}:{operation}",
            job_id,
            version,
            at,
            entry.who,
            entry.what,
            COMMAND.dump_json(entry.command).decode() if entry.command else None,
            entry.begun or None,
            entry.changes or None,
            entry.undoes or None,
            entry.redoes or None,
        ),
    )
    file.run("UPDATE hand SET updated = ? WHERE job_id = ?", (at, job_id))
    file.run("INSERT OR IGNORE INTO hand (job_id, who, updated) VALUES (?, ?, ?)", (job_id, entry.who, at))
