"""How the record in a file differs from the one that was issued, told to a person."""

from domain.editing.changes import ORDER, FieldChange, changes_between
from domain.job.box import shown_in
from domain.job.job import Job
from domain.job.place_in_words import box_at, described, owner_at
from domain.place import Place

_SHOWN = 8
"""Differences told one by one."""


def record_notes(was: Job, now: Job) -> tuple[str, ...]:
    """How the record in a file differs from the one issued, for a person."""
    changes = changes_between(was, now)
    if not changes:
        return ("The record attached to it is the one that was issued.",)
    told = [_told(was, now, change) for change in changes[:_SHOWN]]
    more = f"And {len(changes) - _SHOWN} more." if len(changes) > _SHOWN else ""
    return ("The record attached to it is not the one that was issued.", *told, *filter(None, (more,)))


def _told(was: Job, now: Job, change: FieldChange) -> str:
    place = _place_of(change.path)
    before, after = (owner_at(job, place) if place else None for job in (was, now))
    if place and before and after and box_at(was, place):
        old, new = shown_in(before, place.box), shown_in(after, place.box)
        return f"{described(was, place)}: {old or 'nothing'} as issued, {new or 'nothing'} here."
    return f"It differs in {' '.join(step.replace('_', ' ') for step in change.path if step != ORDER)}."


def _place_of(path: tuple[str, ...]) -> Place | None:
    match path:
        case ("boards", board, box):
            return Place(section="boards", board=board, box=box)
        case ("boards", board, "circuits", circuit, box):
            return Place(section="boards", board=board, circuit=circuit, box=box)
        case (section, box):
            return Place(section=section, box=box)
        case _:
            return None
