"""What the use cases share: a job asked for by its number, a job kept with its line, an operation made before."""

from dataclasses import replace

from domain.duties.noted import TOPIC
from domain.job.job import Job
from domain.log.due_list import job_duties
from domain.log.job_log import JobLine, JobLogError, State, no_such_job
from domain.log.log_line import line_of
from domain.log.store import EditMade, Store, StoredJob, TrailEntry
from domain.log.use_cases.out_with import note_done
from domain.log.use_cases.signing import signers_known


def require(store: Store, number: str) -> StoredJob:
    """The job with this number as it stands; raises where there is none."""
    stored = store.get(number)
    if stored is None:
        raise no_such_job(number)
    return stored


def keep(store: Store, before: StoredJob, job: Job, entry: TrailEntry, *, replaced: bool = False) -> None:
    """Keep a job as it stands now with the line that follows from it. Call it inside a transaction that read `before`."""
    keep_heard(store, before, job, entry, replaced=replaced)
    note_done(store, before, job, entry, replaced=replaced, put_right=before.put_right)


def keep_heard(store: Store, before: StoredJob, job: Job, *entries: TrailEntry, replaced: bool = False) -> None:
    """The same of what was done elsewhere, one edit or several, and is told to nobody once more."""
    line = line_of(
        job,
        updated=entries[-1].at,
        replaced=replaced or before.state is State.REPLACED,
        put_right=before.put_right,
        people=signers_known(store, job),
    )
    store.put(replace(before, job=job, state=line.state), line, *entries)
    keep_duties(store, job, line)


def keep_duties(store: Store, job: Job, line: JobLine) -> None:
    """Keep what is due for a job as it and the notes stand. Call it inside the transaction that changed either."""
    kept = store.notes.about(TOPIC, job.number)
    store.duties.put(
        job.number,
        job_duties(job, kept, is_out=line.state is State.REPLACED or line.laid_aside, put_right=line.put_right),
    )


def operation_on(store: Store, number: str, op: str) -> EditMade | None:
    """The edit of this job that is kept under the name its caller gave it; None where it was not kept."""
    made = store.operation(op, number) if op else None
    if made and made.number != number:
        raise JobLogError(f"That was kept already, in {made.number}; nothing was done to {number}.")
    return made
