"""The days that only the gate can hold against each other: those of signatures and of the issue. Days are of UK civil time."""

from collections.abc import Iterator
from datetime import date, datetime

from domain.civil_time import civil_day
from domain.dates import written
from domain.gate.reason import Reason, ReasonKind
from domain.gate.sentence import said
from domain.job.days_told import DayName, days_told
from domain.job.job import Job, fingerprint
from domain.job.next_due import day_place, day_typed
from domain.job.place_in_words import described
from domain.job.signature import Role, Signature
from domain.place import Place

_TO_COME = {DayName.NEXT}


def signed_out_of_turn(job: Job) -> Iterator[Reason]:
    """A signature from before a day that it answers for, and one that authorises before there is anything to authorise."""
    signatures = _standing_signatures(job)
    past = [each for each in days_told(job) if each.name not in _TO_COME]
    for signature in signatures:
        day = civil_day(signature.at)
        later = [each for each in past if each.day > day]
        if later:
            last = max(later, key=lambda each: each.day)
            of_last = {"place": described(job, last.place), "day": written(last.day)}
            yield _of_signature("signed-before", signature.role, signed=written(day), **of_last)
    by_role = {each.role: each for each in signatures}
    inspected, authorised = by_role.get(Role.INSPECTED), by_role.get(Role.AUTHORISED)
    if inspected and authorised and authorised.at < inspected.at:
        day, earlier = written(civil_day(inspected.at)), written(civil_day(authorised.at))
        yield _of_signature("authorised-before-signed", Role.AUTHORISED, signed=earlier, day=day)


def days_after_issue(job: Job, at: datetime) -> Iterator[Reason]:
    """Whatever is told to have happened after the moment of issue."""
    today, own = civil_day(at), day_place(job)
    for told in days_told(job):
        if told.name not in _TO_COME and told.day > today:
            typed = day_typed(job) if told.place == own else written(told.day)
            says = said("reason.after-issue", place=described(job, told.place), day=typed)
            yield Reason(kind=ReasonKind.DATE, id="after-issue", place=told.place, says=says)
    for signature in _standing_signatures(job):
        if signature.at > at:
            yield _of_signature("signed-after-issue", signature.role, signed=written(civil_day(signature.at)))
    yield from _acts_after(job, today)


def _acts_after(job: Job, today: date) -> Iterator[Reason]:
    """Snags and reasons of a day that is still to come."""
    days = [(Place(snag=each.id), each.raised_on) for each in job.snags]
    days += [(Place(snag=each.id), each.cleared.on) for each in job.snags if each.cleared]
    days += [(each.place, each.on) for each in job.explanations]
    for place, day in days:
        if day > today:
            says = said("reason.act-after-issue", place=described(job, place), day=written(day))
            yield Reason(kind=ReasonKind.DATE, id="act-after-issue", place=place, says=says)


def _standing_signatures(job: Job) -> tuple[Signature, ...]:
    if not job.signatures:
        return ()
    now = fingerprint(job)
    return tuple(each for each in job.signatures if each.role in job.roles and each.fingerprint == now)


def _of_signature(kind: str, role: Role, **values: str) -> Reason:
    place = Place(section="signatures", box=role)
    return Reason(kind=ReasonKind.DATE, id=kind, place=place, says=said(f"reason.{kind}", role=role, **values))
