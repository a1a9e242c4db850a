"""Who may sign what, as the register of people has it."""

from collections.abc import Iterable
from enum import Enum

from domain.register.entries import Person
from domain.signature import Role
from domain.value import Value
from domain.words import joined

_WHOLE = frozenset({Role.DESIGN, Role.CONSTRUCTION, Role.INSPECTION})
"""Who may sign each of these alone may sign for all of them at once."""


class Verdict(Enum):
    """What the register says of a signature."""

    MAY = "may sign"
    ASK = "may sign after a question"
    NO = "may not sign"


class MaySign(Value):
    """The verdict, with a sentence for the person where it is not a plain yes."""

    verdict: Verdict
    says: str = ""


def may_sign(people: Iterable[Person], name: str, role: Role) -> MaySign:
    """Whether somebody may sign for a role. An office that keeps no register of people is asked nothing."""
    known = tuple(people)
    person = next((each for each in known if joined(each.name) == joined(name)), None)
    if not known:
        return MaySign(verdict=Verdict.MAY)
    if person is None:
        return MaySign(
            verdict=Verdict.ASK,
            says=f"{name} is not in the register of people. Is it somebody who may sign for {role}?",
        )
    if not person.signs:
        return MaySign(
            verdict=Verdict.NO,
            says=f"{person.name} is in training and signs nothing yet; the register of people can be changed",
        )
    if not _covers(person, role):
        may = ", ".join(person.signs)
        return MaySign(
            verdict=Verdict.NO, says=f"{person.name} may sign for {may}, not for {role}; see the register of people"
        )
    return MaySign(verdict=Verdict.MAY)


def _covers(person: Person, role: Role) -> bool:
    if role is Role.SHARED_DESIGN:
        return Role.DESIGN in person.signs or role in person.signs
    return role in person.signs or (role is Role.MINOR_WORKS and set(person.signs) >= _WHOLE)
