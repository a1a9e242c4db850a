"""The registers: an entry kept with all its versions, and what an issued paper teaches them."""

from datetime import datetime

from domain.job.job import Job
from domain.log.job_log import JobLogError
from domain.log.store import Store
from domain.register.entries import Kept, RegisterEntry
from domain.register.learning import learnt_from


def register(store: Store, entry: RegisterEntry, *, entry_id: str, who: str, at: datetime, retired: bool) -> Kept:
    """Keep a new entry, or another version of the one with this id; an entry stays of its kind."""
    with store.transaction():
        versions = store.registers.versions(entry_id) if entry_id else ()
        if entry_id and not versions:
            raise JobLogError(f"There is no entry {entry_id!r} in the registers.")
        if versions and versions[-1].entry.kind != entry.kind:
            raise JobLogError(f"Entry {entry_id} is a {versions[-1].entry.kind} and stays one.")
        version = len(versions) + 1
        return store.registers.add(entry, entry_id=entry_id, version=version, who=who, at=at, retired=retired)


def learn(store: Store, job: Job, *, who: str, at: datetime) -> None:
    """Keep what a paper names and the registers do not hold. Call it inside a transaction."""
    for entry in learnt_from(job):
        if not store.registers.holds(entry):
            store.registers.add(entry, entry_id="", version=1, who=who, at=at, retired=False)
