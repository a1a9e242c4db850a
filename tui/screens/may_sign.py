"""Whether somebody may sign, as the register of people in the log has it."""

from collections.abc import Iterable

from domain.job_log import JobLog
from domain.register.entries import Kind, Person
from domain.register.signing import MaySign, Verdict, may_sign
from domain.signature import Role
from domain.words import joined

_WORST_FIRST = (Verdict.NO, Verdict.ASK, Verdict.MAY)


def allowed(log: JobLog, name: str, roles: Iterable[Role]) -> tuple[Person | None, MaySign]:
    """The person of that name, and the strictest verdict over the roles."""
    near = log.registered(Kind.PERSON, name) or log.registered(Kind.PERSON, limit=1)
    people = [kept.entry for kept in near if isinstance(kept.entry, Person)]
    known = next((person for person in people if joined(person.name) == joined(name)), None)
    verdicts = [may_sign(people, name, role) for role in roles]
    return known, min(verdicts, key=lambda each: _WORST_FIRST.index(each.verdict))
