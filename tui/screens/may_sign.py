"""Whether somebody may sign, as the register of people in the log has it."""

from collections.abc import Iterable

from domain.job_log import JobLog
from domain.register.entries import Kind, Person
from domain.register.signing import MaySign, Verdict, may_sign
from domain.signature import Role

_WORST_FIRST = (Verdict.NO, Verdict.ASK, Verdict.MAY)


def allowed(log: JobLog, name: str, roles: Iterable[Role]) -> tuple[Person | None, MaySign]:
    """The person of that name, and the strictest verdict over the roles."""
    named = log.people_named((name,))
    others = () if named else (kept.entry for kept in log.registered(Kind.PERSON, limit=1))
    people = (*named, *(each for each in others if isinstance(each, Person)))
    verdicts = [may_sign(people, name, role) for role in roles]
    return next(iter(named), None), min(verdicts, key=lambda each: _WORST_FIRST.index(each.verdict))
