"""Undo and redo: what an edit changed in a job, and the same change taken back or made again on the job as it is now."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from pydantic import TypeAdapter, ValidationError

from domain.editing.changes import ORDER, FieldChange, changes_between, put
from domain.editing.commands import Declined
from domain.editing.inspecting import in_agreement
from domain.job.job import Job
from domain.job.place_in_words import described
from domain.job.start import with_standing_signatures
from domain.place import Place


class Edit(NamedTuple):
    """One person's edit of a job, as a log keeps it for stepping."""

    version: int
    what: str
    changes: str
    """As `kept` made it; "" where there is nothing to step back."""
    undoes: int = 0
    """The version of the edit that this one took back."""
    redoes: int = 0
    """The version of the edit that this one made again."""


class UndoStep(NamedTuple):
    """An edit taken back or made again."""

    job: Job
    version: int
    """Of the edit that was stepped over."""
    says: str
    place: Place


_ISSUED = Declined(says="It has been issued and can no longer be changed")
_CHANGES: TypeAdapter[tuple[FieldChange, ...]] = TypeAdapter(tuple[FieldChange, ...])


def kept(before: Job, after: Job) -> str:
    """What an edit changed, as a log keeps it beside the edit."""
    return _CHANGES.dump_json(changes_between(before, after), exclude_defaults=True).decode()


def step_back(job: Job, edits: Iterable[Edit]) -> UndoStep | Declined:
    """Take back the last edit of a person that still stands. Those that others changed since are passed over."""
    if job.issued:
        return _ISSUED
    done, _ = _stacks(edits)
    overtaken: Declined | None = None
    for edit in reversed(done):
        after = _stepped(job, edit, back=True)
        if isinstance(after, Job):
            passed = f" (passed over: {overtaken.says})" if overtaken else ""
            return UndoStep(after, edit.version, f"Undone: {edit.what}{passed}", _place(edit))
        overtaken = overtaken or after
    return overtaken or Declined(says="There is nothing of yours to undo in this job")


def step_forward(job: Job, edits: Iterable[Edit]) -> UndoStep | Declined:
    """Make the edit again that a person took back last."""
    if job.issued:
        return _ISSUED
    _, undone = _stacks(edits)
    if not undone:
        return Declined(says="There is nothing to redo; redo follows an undo")
    after = _stepped(job, undone[-1], back=False)
    if isinstance(after, Declined):
        return after
    return UndoStep(after, undone[-1].version, f"Done again: {undone[-1].what}", _place(undone[-1]))


def step_made(job: Job, edits: Iterable[Edit], version: int) -> UndoStep | Declined:
    """The step that was kept as a version of a job, told again; the job is as it stands now."""
    known = {edit.version: edit for edit in edits}
    step = known.get(version)
    over = known.get(step.undoes or step.redoes) if step else None
    if step is None or over is None:
        return Declined(says="That was kept already, and was no step back or forward")
    return UndoStep(job, over.version, step.what, _place(over))


def made_again(job: Job, edit: Edit) -> Job | Declined:
    """What an edit changed, changed once more in a job as it was before."""
    return _stepped(job, edit, back=False)


def _stacks(edits: Iterable[Edit]) -> tuple[list[Edit], list[Edit]]:
    done: dict[int, Edit] = {}
    undone: dict[int, Edit] = {}
    for edit in edits:
        if edit.undoes in done:
            undone[edit.undoes] = done.pop(edit.undoes)
        elif edit.redoes in undone:
            done[edit.redoes] = undone.pop(edit.redoes)
        elif edit.changes:
            done[edit.version] = edit
            undone.clear()
    return list(done.values()), list(undone.values())


def _stepped(job: Job, edit: Edit, *, back: bool) -> Job | Declined:
    changes = _CHANGES.validate_json(edit.changes)
    document = job.model_dump(mode="json")
    for change in reversed(changes) if back else changes:
        was, now = (change.after, change.before) if back else (change.before, change.after)
        if not put(document, change, was, now) and _matters(change):
            return Declined(says=f"{described(job, _place_of(change.path)) or 'It'} was changed by somebody since")
    try:
        made = with_standing_signatures(Job.model_validate(document))
    except ValidationError:
        return Declined(says=f"It no longer fits: {edit.what}")
    if made == job:
        return Declined(says=f"Nothing is left of it: {edit.what}")
    if in_agreement(job) and not in_agreement(made):
        return Declined(says="An inspection item and its observation would no longer agree")
    if made.profile.covers_one_circuit and len(made.circuits()) > max(len(job.circuits()), 1):
        return Declined(says=f"{made.profile.opens_a_sentence} covers one circuit")
    return made


def _matters(change: FieldChange) -> bool:
    """A signature lifted or given anew since is left alone: what it covers decides whether it stands.

    Of lists, only boards and circuits have an order that means something.
    """
    return change.path[0] != "signatures" and (change.path[-1] != ORDER or change.path[0] == "boards")


def _place(edit: Edit) -> Place:
    return _place_of(next(iter(_CHANGES.validate_json(edit.changes))).path)


def _place_of(path: Sequence[str]) -> Place:
    match [step for step in path if step != ORDER]:
        case ["boards", board, "circuits", circuit, *rest]:
            return Place(section="boards", board=board, circuit=circuit, box="".join(rest[:1]))
        case ["boards", board, *rest]:
            return Place(section="boards", board=board, box="".join(rest[:1]).removeprefix("circuits"))
        case ["snags", snag, *_]:
            return Place(snag=snag)
        case ["observations", observation, *_]:
            return Place(observation=observation)
        case ["inspection", item, *_]:
            return Place(section="inspection", item=item)
        case [section, *rest]:
            return Place(section=section, box="".join(rest[:1]))
        case _:
            return Place()
