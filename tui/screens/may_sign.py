"""Whether somebody may sign, as the register of people in the log has it."""

from collections.abc import Iterable

from domain.job.signature import Role
from domain.log.job_log import JobLog
from domain.register.entries import Person, RegisterKind
from domain.register.signing import MaySign, SigningVerdict, may_sign

_WORST_FIRST = (SigningVerdict.NO, SigningVerdict.ASK, SigningVerdict.MAY)


def allowed(log: JobLog, name: str, roles: Iterable[Role]) -> tuple[Person | None, MaySign]:
    """The person of that name, and the strictest verdict over the roles."""
    named = log.people_named((name,))
    others = () if named else (kept.entry for kept in log.registered(RegisterKind.PERSON, limit=1))
    people = (*named, *(each for each in others if isinstance(each, Person)))
    verdicts = [may_sign(people, name, role) for role in roles]
    return next(iter(named), None), min(verdicts, key=lambda each: _WORST_FIRST.index(each.verdict))
