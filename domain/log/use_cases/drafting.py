"""Drafts: begun with a number, edited as they stand, taken a step back or forward, begun as a correction."""

from collections.abc import Callable, Iterable
from dataclasses import replace as replaced
from datetime import datetime

from domain.editing.audit_text import audit_text, shortened
from domain.editing.commands import Command, Declined
from domain.editing.correction import correction_of
from domain.editing.reducer import apply
from domain.editing.undo import Edit, UndoStep, kept, step_back, step_forward, step_made
from domain.job.job import Job
from domain.job.signature import shown_signed
from domain.job.start import as_draft
from domain.log.job_log import State
from domain.log.secret_keeping import PhraseHashing
from domain.log.store import Store, StoredJob, TrailEntry
from domain.log.use_cases.out_with import why_out
from domain.log.use_cases.phrases import declined_by_phrase, without_unproven
from domain.log.use_cases.signing import declined_by_register
from domain.log.use_cases.stored import keep, operation_on, require

Take = Callable[[Job, Iterable[Edit]], UndoStep | Declined]


def create(store: Store, jobs: Iterable[Job], *, who: str, at: datetime, op: str) -> tuple[Job, ...]:
    """Keep new jobs as drafts: every one of them, or none. They are read before anybody has to wait for them."""
    given = tuple(jobs)
    drafts = [without_unproven(store, as_draft(job)) for job in given]
    ops = [_op_of(op, turn) for turn in range(len(drafts))]
    with store.transaction():
        if op and store.operation(op):
            return tuple(require(store, made.number).job for made in map(store.operation, ops) if made)
        return tuple(
            _begin(store, draft, TrailEntry(who, at, begun_from(job, draft), op=each))
            for job, draft, each in zip(given, drafts, ops, strict=True)
        )


def begun_from(given: Job, draft: Job) -> str:
    """What the trail says of a job that begins: what it was elsewhere is history, and stands nowhere else."""
    lost = [each for each in given.signatures if each not in draft.signatures]
    history = [f"signed before it came here, which does not stand: {shown_signed(lost)}"] if lost else []
    if given.replaces.strip() and not draft.replaces:
        history.append(f"said to replace {given.replaces.strip()}, which does not stand")
    return shortened("; ".join(["Begun", *history]))


def edit(
    store: Store,
    hashing: PhraseHashing | None,
    number: str,
    command: Command,
    *,
    phrase: str,
    who: str,
    at: datetime,
    op: str,
) -> Job | Declined:
    """Apply a command to the job as it stands, and keep both. Nobody signs against the register, or without their phrase."""
    if not (op and store.operation(op, number)) and (
        refused := declined_by_phrase(store, hashing, command, phrase, who=who, at=at)
    ):
        return refused
    with store.transaction(number):
        before = require(store, number)
        if operation_on(store, number, op):
            return before.job
        if why := why_out(store, number):
            return Declined(says=why)
        after = declined_by_register(store, command) or apply(before.job, command)
        if not isinstance(after, Declined) and after != before.job:
            says = audit_text(before.job, command)
            entry = TrailEntry(who, at, says, op=op, command=command, changes=kept(before.job, after))
            keep(store, before, after, entry)
        return after


def undo(store: Store, number: str, *, who: str, at: datetime, op: str) -> UndoStep | Declined:
    """Take back the last edit of this person that still stands."""
    return _step(store, number, step_back, TrailEntry(who, at, "", op=op))


def redo(store: Store, number: str, *, who: str, at: datetime, op: str) -> UndoStep | Declined:
    """Make the edit again that this person took back last."""
    return _step(store, number, step_forward, TrailEntry(who, at, "", op=op))


def replace(store: Store, number: str, *, because: str, who: str, at: datetime, op: str) -> Job | Declined:
    """Begin a correction of an issued job: one at a time, and of the newest."""
    with store.transaction(number):
        if made := store.operation(op) if op else None:
            return require(store, made.number).job
        old = require(store, number)
        if why := why_out(store, number):
            return Declined(says=why)
        if old.state is State.REPLACED:
            return Declined(says=f"{number} has been replaced by {old.correction}; correct that one")
        if old.correction:
            return Declined(says=f"{old.correction} is being made to replace {number} already; go on with that one")
        if not old.is_issued:
            return Declined(says=f"{number} has not been issued; change it as it is")
        draft = correction_of(old.job, because)
        if isinstance(draft, Declined):
            return draft
        what = f"Begun to replace {number} because: {shortened(draft.replaces_because)}"
        return _begin(store, draft, TrailEntry(who, at, what, op=op), replaces=number)


def _begin(store: Store, draft: Job, entry: TrailEntry, *, replaces: str = "") -> Job:
    numbered = draft.model_copy(update={"number": store.next_number()})
    keep(store, StoredJob(numbered, replaces=replaces), numbered, entry)
    return numbered


def _step(store: Store, number: str, take: Take, asked: TrailEntry) -> UndoStep | Declined:
    with store.transaction(number):
        before = require(store, number)
        edits = store.edits(number, asked.who)
        if made := operation_on(store, number, asked.op):
            return step_made(before.job, edits, made.version)
        if why := why_out(store, number):
            return Declined(says=why)
        step = take(before.job, edits)
        if not isinstance(step, Declined):
            step = step._replace(job=without_unproven(store, step.job, before.job.signatures))
            undoes, redoes = (step.version, 0) if take is step_back else (0, step.version)
            changes = kept(before.job, step.job)
            entry = replaced(asked, what=step.says, changes=changes, undoes=undoes, redoes=redoes)
            keep(store, before, step.job, entry)
        return step


def _op_of(op: str, turn: int) -> str:
    """The name of one of several jobs made at once; the first goes by the name that was given."""
    return f"{op}/{turn}" if op and turn else op
