"""The registers: an entry kept with all its versions, and what an issued paper teaches them."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from domain.job.job import Job
from domain.log.job_log import JobLogError, Query, State
from domain.log.log_line import line_of
from domain.log.store import Store, TrailEntry
from domain.log.use_cases.out_with import is_laptop, note_rule, why_out
from domain.log.use_cases.signing import signers_known
from domain.log.use_cases.stored import keep, require
from domain.register.entries import (
    ENTRY,
    Kept,
    KnownClient,
    KnownPremises,
    Person,
    RegisterEntry,
    identity_of,
    title_of,
)
from domain.register.learning import learnt_from
from domain.register.merging import merged
from domain.words import joined

_MANY = 1000
"""Drafts of one signer that are looked at again; the others are when they are next changed."""


def register(store: Store, entry: RegisterEntry, *, entry_id: str, who: str, at: datetime, retired: bool) -> Kept:
    """Keep a new entry, or another version of the one with this id; an entry stays of its kind."""
    _refuse_on_laptops(store)
    with store.transaction():
        return _registered(store, entry, entry_id, who, at, retired=retired)


def merge(store: Store, stays_id: str, goes_id: str, *, who: str, at: datetime) -> Kept:
    """Give an entry what it lacks from another that is the same thing in the world, and retire that one: both, or nothing."""
    _refuse_on_laptops(store)
    with store.transaction():
        stays, goes = (_newest(store, entry_id) for entry_id in (stays_id, goes_id))
        entry = merged(stays.entry, goes.entry)
        if entry is None or stays_id == goes_id:
            raise JobLogError("Two entries are merged that stand in one register.")
        if stays.retired:
            raise JobLogError(f"{title_of(stays.entry)} is retired; put it back first.")
        if not goes.retired:
            _registered(store, goes.entry, goes_id, who, at, retired=True)
        return _registered(store, entry, stays_id, who, at, retired=False) if entry != stays.entry else stays


def _refuse_on_laptops(store: Store) -> None:
    if is_laptop(store):
        raise JobLogError("The registers come from the office; change them there, and exchange.")


def _newest(store: Store, entry_id: str) -> Kept:
    if not (versions := store.registers.versions(entry_id)):
        raise JobLogError(f"There is no entry {entry_id!r} in the registers.")
    return versions[-1]


def _registered(store: Store, entry: RegisterEntry, entry_id: str, who: str, at: datetime, *, retired: bool) -> Kept:
    before = _newest(store, entry_id) if entry_id else None
    if before and before.entry.kind != entry.kind:
        raise JobLogError(f"Entry {entry_id} is a {before.entry.kind} and stays one.")
    version = before.version + 1 if before else 1
    kept = store.registers.add(entry, entry_id=entry_id, version=version, who=who, at=at, retired=retired)
    was = before.entry.model_dump(mode="json") if before else None
    told = {"entry": entry.model_dump(mode="json"), "was": was, "who": who, "retired": retired}
    note_rule(store, told, at.isoformat())
    if isinstance(entry, Person):
        versions = store.registers.versions(kept.id)
        for name in sorted({each.entry.name for each in versions if isinstance(each.entry, Person)}):
            _look_again(store, name, who=who, at=at)
    return kept


def _look_again(store: Store, name: str, *, who: str, at: datetime) -> None:
    """Drafts signed by somebody are ready, or no longer, as the register now has them."""
    for state in (State.READY, State.DRAFT):
        for found in store.find(Query(engineer=name, state=state, limit=_MANY)):
            if why_out(store, found.number):
                continue
            stored = require(store, found.number)
            if joined(name) not in map(joined, stored.job.signers):
                continue
            line = line_of(stored.job, updated=at, people=signers_known(store, stored.job))
            if line.state is not stored.state:
                says = "Ready" if line.state is State.READY else "Ready no longer"
                keep(store, stored, stored.job, TrailEntry(who, at, f"{says}, as the register of people has {name}"))


def hear_entry(store: Store, told: Mapping[str, Any], *, at: datetime) -> None:
    """Keep what the office changed in its registers. Call it inside a transaction."""
    entry = ENTRY.validate_python(told["entry"])
    before = ENTRY.validate_python(told["was"]) if told["was"] else entry
    entry_id, version = "", 1
    for is_retired in (False, True):
        for kept in store.registers.entries(before.kind, title_of(before), retired=is_retired, limit=_MANY):
            if identity_of(kept.entry) == identity_of(before):
                entry_id, version = kept.id, kept.version + 1
    store.registers.add(
        entry, entry_id=entry_id, version=version, who=told["who"], at=at, retired=bool(told["retired"])
    )
    if isinstance(entry, Person):
        names: set[str] = {entry.name} | ({before.name} if isinstance(before, Person) else set())
        for name in sorted(names):
            _look_again(store, name, who=told["who"], at=at)


def learn(store: Store, job: Job, *, who: str, at: datetime) -> None:
    """Keep what a paper names and the registers do not hold. Call it inside a transaction."""
    for entry in learnt_from(job):
        if not store.registers.holds(entry):
            store.registers.add(entry, entry_id="", version=1, who=who, at=at, retired=False)


def unlearn(store: Store, wrong: Job, right: Job, *, who: str, at: datetime) -> None:
    """Retire the client or premises that a paper was wrong about, once another replaces it. Call it inside a transaction.

    What somebody has kept since, and what another paper that stands names too, stays.
    """
    now = {(entry.kind, identity_of(entry)) for entry in learnt_from(right)}
    for entry in learnt_from(wrong):
        if not isinstance(entry, KnownClient | KnownPremises) or (entry.kind, identity_of(entry)) in now:
            continue
        if _stands_elsewhere(store, entry, {wrong.number, right.number}):
            continue
        for kept in store.registers.entries(entry.kind, title_of(entry), retired=False, limit=_MANY):
            if identity_of(kept.entry) == identity_of(entry) and kept.version == 1:
                store.registers.add(kept.entry, entry_id=kept.id, version=2, who=who, at=at, retired=True)


def _stands_elsewhere(store: Store, entry: KnownClient | KnownPremises, but: set[str]) -> bool:
    """Another paper that stands names the same."""
    asked = Query(client=entry.name) if isinstance(entry, KnownClient) else Query(place=entry.address)
    for line in store.find(asked.model_copy(update={"state": State.ISSUED, "limit": _MANY})):
        named = learnt_from(require(store, line.number).job) if line.number not in but else ()
        if any(identity_of(each) == identity_of(entry) for each in named):
            return True
    return False
