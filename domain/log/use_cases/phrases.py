"""Signing phrases: set by a person of the register, asked before anybody signs as them, and a pause after wrong ones.

They are notes of the log under topics of their own: no part of a job, a trail, a register entry or anything handed over.
"""

from collections.abc import Iterable
from datetime import datetime, timedelta

from domain.civil_time import written_moment
from domain.editing.commands import Command, Declined, Sign
from domain.job.job import Job
from domain.job.signature import Signature
from domain.log.job_log import JobLogError
from domain.log.secret_keeping import PhraseHashing
from domain.log.store import Store
from domain.log.use_cases.out_with import is_laptop, keep_note
from domain.log_note import LogNote
from domain.words import joined

SHORTEST = 8
"""Letters of a phrase."""
_TRIES = 3
"""Wrong ones before there is a pause."""
_FIRST_PAUSE, _LONGEST_PAUSE = timedelta(seconds=30), timedelta(hours=1)
_REQUIRED = "signing phrases"
_WRONG, _RIGHT = "wrong", "right"


_AT_OFFICE = "Signing phrases come from the office; set it there, and exchange"


def is_asked(store: Store, name: str) -> bool:
    """Nobody signs under this name without a phrase: one is set, or the firm requires one of all."""
    return bool(_kept(store, name)) or is_required(store)


def is_required(store: Store) -> bool:
    """The firm requires a phrase of everybody who signs."""
    notes = store.notes.of(_REQUIRED, "")
    return bool(notes) and notes[-1].text == "required"


def require(store: Store, *, required: bool, who: str, at: datetime) -> None:
    """Require a phrase of everybody who signs in this log, or of those only who set one."""
    if is_laptop(store):
        raise JobLogError(f"{_AT_OFFICE}.")
    with store.transaction():
        note = LogNote(at=at, who=who, text="required" if required else "not required")
        keep_note(store, _REQUIRED, note, is_rule=True)


def set_phrase(
    store: Store, hashing: PhraseHashing | None, name: str, phrase: str, *, before: str, who: str, at: datetime
) -> str:
    """Keep a person's phrase, hashed. Why not, where it cannot be; whoever has one gives it first."""
    if is_laptop(store):
        return _AT_OFFICE
    if hashing is None:
        return "This log keeps no signing phrases"
    if not store.registers.named((name,)):
        return f"{name} is not in the register of people; only somebody there can set a signing phrase"
    if len(phrase.strip()) < SHORTEST:
        return f"A signing phrase has {SHORTEST} letters or more; several words are easiest to keep in mind"
    if _kept(store, name) and (wrong := _tried(store, hashing, name, before, who=who, at=at)):
        return wrong
    kept = hashing.hashed(phrase.strip())
    with store.transaction():
        keep_note(store, _topic(name), LogNote(at=at, who=who, text=kept), is_rule=True)
    return ""


def declined_by_phrase(
    store: Store, hashing: PhraseHashing | None, command: Command, phrase: str, *, who: str, at: datetime
) -> Declined | None:
    """Why a command cannot sign without the right phrase; None where it may. Call it outside a transaction: it keeps tries."""
    if not isinstance(command, Sign) or not is_asked(store, command.name):
        return None
    if not _kept(store, command.name):
        return Declined(
            says=f"{command.name} has no signing phrase yet, and this log requires one of everybody who signs"
        )
    wrong = _tried(store, hashing, command.name, phrase, who=who, at=at)
    return Declined(says=wrong) if wrong else None


def without_unproven(store: Store, job: Job, proven: Iterable[Signature] = ()) -> Job:
    """The job without signatures that a phrase would have to prove, but for those that were proven when they were made."""
    known = tuple(proven)
    left = tuple(each for each in job.signatures if each in known or not is_asked(store, each.name))
    return job if left == job.signatures else job.model_copy(update={"signatures": left})


def _tried(store: Store, hashing: PhraseHashing | None, name: str, phrase: str, *, who: str, at: datetime) -> str:
    """Try a phrase, and keep whether it was right; "" where it was."""
    tried = store.notes.of(_tries_topic(name), "")
    if (until := _pause_after(tried)) and at < until:
        return f"Too many wrong signing phrases for {name}; the next can be tried at {written_moment(until)}"
    if not phrase:
        return f"Nobody signs as {name} without the signing phrase"
    is_right = hashing is not None and hashing.fits(phrase.strip(), _kept(store, name))
    if is_right and not _wrong_in_a_row(tried):
        return ""
    with store.transaction():
        store.notes.add(_tries_topic(name), LogNote(at=at, who=who, text=_RIGHT if is_right else _WRONG))
    return "" if is_right else f"That is not the signing phrase of {name}; nothing was signed"


def _pause_after(tried: tuple[LogNote, ...]) -> datetime | None:
    """Until when nothing can be tried: half a minute after three wrong ones, twice as long after each further one."""
    over = _wrong_in_a_row(tried) - _TRIES
    if over < 0:
        return None
    pause = _LONGEST_PAUSE if over > 6 else min(_FIRST_PAUSE * 2**over, _LONGEST_PAUSE)
    return tried[-1].at + pause


def _wrong_in_a_row(tried: tuple[LogNote, ...]) -> int:
    count = 0
    for note in reversed(tried):
        if note.text != _WRONG:
            break
        count += 1
    return count


def _kept(store: Store, name: str) -> str:
    notes = store.notes.of(_topic(name), "")
    return notes[-1].text if notes else ""


def _topic(name: str) -> str:
    return f"signing phrase of {joined(name)}"


def _tries_topic(name: str) -> str:
    return f"signing phrase tried of {joined(name)}"
