"""Who may sign, as the register of people has it: asked before a signature is kept, and again before a paper is issued."""

from collections.abc import Iterable

from domain.editing.commands import Command, Declined, Sign
from domain.job.job import Job
from domain.job.signature import Role
from domain.log.store import Store
from domain.register.entries import Person, RegisterKind
from domain.register.signing import MaySign, SigningVerdict, declined, may_sign

_WORST_FIRST = (SigningVerdict.NO, SigningVerdict.ASK, SigningVerdict.MAY)


def declined_by_register(store: Store, command: Command) -> Declined | None:
    """Why a command cannot sign; None where it may, or signs nothing."""
    return declined(command, store.registers.named((command.name,))) if isinstance(command, Sign) else None


def signers_known(store: Store, job: Job, *others: str) -> tuple[Person, ...]:
    """Those of the register among the signers of a job and `others`, which the gate asks for."""
    names = (*job.signers, *others)
    return store.registers.named(names) if names else ()


def may_sign_for(store: Store, name: str, roles: Iterable[Role]) -> tuple[Person | None, MaySign]:
    """The person of that name, and the strictest verdict over the roles."""
    named = store.registers.named((name,))
    others = (
        ()
        if named
        else (kept.entry for kept in store.registers.entries(RegisterKind.PERSON, "", retired=False, limit=1))
    )
    people = (*named, *(each for each in others if isinstance(each, Person)))
    verdicts = [may_sign(people, name, role) for role in roles]
    return next(iter(named), None), min(verdicts, key=lambda each: _WORST_FIRST.index(each.verdict))
