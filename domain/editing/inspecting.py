"""What is done to the inspection of a job: outcomes, items of its own, observations; item and observation always agree.

An item that observations name shows the gravest of their codes. So a coded item cannot be marked otherwise while an
observation codes it, and it follows when the observation changes.
"""

from collections.abc import Callable
from itertools import count
from typing import Any

from domain.editing.batch import in_turn
from domain.editing.commands import (
    AddItem,
    AnswerFailures,
    Declined,
    MarkItems,
    Observe,
    RecordAction,
    RemoveItem,
    SetOutcome,
    Withdraw,
)
from domain.inspection.item_outcome import InspectionOutcome, ItemOutcome, marks_for
from domain.inspection.observation import Code, Observation, gravest, is_gentler
from domain.inspection.own_item import OWN, OwnItem
from domain.job.job import Job
from domain.value import Value

_GONE = "That observation is no longer there"


def code_of(job: Job, item: str) -> Code | None:
    """The gravest code that the observations of an item give it."""
    return gravest(each.code for each in job.observations if item in each.items)


def in_agreement(job: Job) -> bool:
    """Every item that observations name shows the gravest of their codes."""
    marks = {outcome.item: outcome.mark.code for outcome in job.inspection}
    named = {item for each in job.observations for item in each.items} & {item.number for item in job.items}
    return all(marks.get(item) is code_of(job, item) for item in named)


def _set_outcome(job: Job, command: SetOutcome) -> Job | Declined:
    if command.mark and command.mark not in marks_for(job.form_set):
        return Declined(says=f"{command.mark} belongs on reports only; on a certificate put it right, or raise a snag")
    if all(item.number != command.item for item in job.items):
        return Declined(says=f"There is no inspection item {command.item or 'without a number'}")
    code = code_of(job, command.item)
    if code and (command.mark is None or command.mark.code is not code):
        which = next(at for at, each in enumerate(job.observations, 1) if command.item in each.items)
        return Declined(
            says=f"Observation {which} makes {command.item} a {code}; rewrite it, or withdraw it, and the item follows"
        )
    outcome = ItemOutcome(item=command.item, mark=command.mark, note=command.note) if command.mark else None
    return _with_outcome(job, command.item, outcome)


def _mark_items(job: Job, command: MarkItems) -> Job | Declined:
    return in_turn(job, (SetOutcome(item=item, mark=command.mark) for item in command.items), _set_outcome)


def _with_outcome(job: Job, item: str, outcome: ItemOutcome | None) -> Job:
    kept = [each for each in job.inspection if each.item != item]
    return job.model_copy(update={"inspection": (*kept, outcome) if outcome else tuple(kept)})


def _add_item(job: Job, command: AddItem) -> Job | Declined:
    if not job.profile.checklist:
        return Declined(says=f"{job.profile.opens_a_sentence} has no inspection schedule")
    if not command.title.strip():
        return Declined(says="An item needs a word on what is looked at")
    taken = {own.item for own in job.own_items} | {outcome.item for outcome in job.inspection}
    taken |= {item for each in job.observations for item in each.items}
    number = next(number for at in count(1) if (number := f"{OWN}{at}") not in taken)
    own = OwnItem(item=number, title=command.title, regulations=command.regulations)
    return job.model_copy(update={"own_items": (*job.own_items, own)})


def _remove_item(job: Job, command: RemoveItem) -> Job | Declined:
    if all(own.item != command.item for own in job.own_items):
        return Declined(says="Only items added for these premises can be removed")
    if code_of(job, command.item):
        return Declined(says=f"An observation names {command.item}; take it from there first")
    kept = tuple(own for own in job.own_items if own.item != command.item)
    return _with_outcome(job.model_copy(update={"own_items": kept}), command.item, None)


def _observe(job: Job, command: Observe) -> Job | Declined:
    if not job.profile.takes_observations:
        return Declined(says="Observations belong to a report; on new work raise a snag and put it right")
    if not command.finding.strip():
        return Declined(says="An observation needs a word on what was found")
    before = _observation(job, command.observation)
    if command.observation and before is None:
        return Declined(says=_GONE)
    written = Observation(
        id=before.id if before else f"o{job.next_id}",
        finding=command.finding,
        code=command.code,
        where=command.where,
        items=command.items,
        about=command.about,
        reason=command.reason,
        answers=tuple(dict.fromkeys((*(before.answers if before else ()), *command.answers))),
        lowered_from=_lowered_from(before, command.code),
        action=before.action if before else None,
    )
    if before is None:
        after = job.model_copy(update={"observations": (*job.observations, written), "next_id": job.next_id + 1})
    else:
        after = _with_observation(job, written)
    return items_followed(job, after)


def _lowered_from(before: Observation | None, code: Code) -> Code | None:
    """The gravest code it had so far, where it gets a gentler one now."""
    if before is None:
        return None
    had = gravest(each for each in (before.code, before.lowered_from) if each)
    return had if had and is_gentler(code, had) else None


def _answer_failures(job: Job, command: AnswerFailures) -> Job | Declined:
    before = _observation(job, command.observation)
    if before is None:
        return Declined(says=_GONE)
    answers = Observation.model_validate(dict(before) | {"answers": tuple(dict.fromkeys(command.answers))})
    return _with_observation(job, answers)


def _record_action(job: Job, command: RecordAction) -> Job | Declined:
    before = _observation(job, command.observation)
    if before is None:
        return Declined(says=_GONE)
    if before.code is not Code.C1:
        return Declined(says=f"What was done at once belongs to a C1; this is a {before.code}")
    return _with_observation(job, before.model_copy(update={"action": command.action}))


def _observation(job: Job, observation: str) -> Observation | None:
    return next((each for each in job.observations if each.id == observation), None)


def _with_observation(job: Job, written: Observation) -> Job:
    return job.model_copy(
        update={"observations": tuple(written if each.id == written.id else each for each in job.observations)}
    )


def _withdraw(job: Job, command: Withdraw) -> Job:
    kept = tuple(each for each in job.observations if each.id != command.observation)
    return items_followed(job, job.model_copy(update={"observations": kept}))


def items_followed(before: Job, after: Job) -> Job:
    """The items that an observation names, or named before, follow its code; what no observation codes is open again."""
    for item in (item.number for item in after.items):
        was, code = code_of(before, item), code_of(after, item)
        outcome = next((each for each in after.inspection if each.item == item), None)
        if code and (outcome is None or outcome.mark.code is not code):
            note = outcome.note if outcome else ""
            after = _with_outcome(after, item, ItemOutcome(item=item, mark=InspectionOutcome(code.value), note=note))
        elif was and code is None:
            after = _with_outcome(after, item, None)
    return after


INSPECTING: dict[type[Value], Callable[[Job, Any], Job | Declined]] = {
    SetOutcome: _set_outcome,
    MarkItems: _mark_items,
    AddItem: _add_item,
    RemoveItem: _remove_item,
    Observe: _observe,
    AnswerFailures: _answer_failures,
    RecordAction: _record_action,
    Withdraw: _withdraw,
}
"""The commands on an inspection, and what each does."""
