"""Who may sign what, as the register of people has it."""

from collections.abc import Iterable, Mapping
from enum import Enum

from domain.editing.commands import Declined, Sign
from domain.job.signature import Role
from domain.register.entries import Person
from domain.value import Value
from domain.words import joined

SIGNS: Mapping[str, Role] = {
    "design": Role.DESIGN,
    "construction": Role.CONSTRUCTION,
    "inspection": Role.INSPECTION,
    "minor works": Role.MINOR_WORKS,
    "reports": Role.INSPECTED,
    "authorising": Role.AUTHORISED,
}
"""What an office lets people sign, in words short enough to type."""
_WHOLE = frozenset({Role.DESIGN, Role.CONSTRUCTION, Role.INSPECTION})
"""Who may sign each of these alone may sign for all of them at once."""


class SigningVerdict(Enum):
    """What the register says of a signature."""

    MAY = "may sign"
    ASK = "may sign after a question"
    NO = "may not sign"


class MaySign(Value):
    """The verdict, with a sentence for the person where it is not a plain yes."""

    verdict: SigningVerdict
    says: str = ""


def may_sign(people: Iterable[Person], name: str, role: Role) -> MaySign:
    """Whether somebody may sign for a role. An office that keeps no register of people is asked nothing."""
    known = tuple(people)
    person = next((each for each in known if joined(each.name) == joined(name)), None)
    if not known:
        return MaySign(verdict=SigningVerdict.MAY)
    if person is None:
        return MaySign(
            verdict=SigningVerdict.ASK,
            says=f"{name} is not in the register of people. Is it somebody who may sign for {role}?",
        )
    if not person.signs:
        return MaySign(
            verdict=SigningVerdict.NO,
            says=f"{person.name} is in training and signs nothing yet; the register of people can be changed",
        )
    if not _covers(person, role):
        return MaySign(
            verdict=SigningVerdict.NO,
            says=f"{person.name} may sign for {signs_shown(person.signs)}, not for {role}; see the register of people",
        )
    return MaySign(verdict=SigningVerdict.MAY)


def declined(sign: Sign, people: Iterable[Person]) -> Declined | None:
    """Why somebody cannot sign, where the register of people does not let them; else None."""
    may = may_sign(people, sign.name, sign.role)
    return Declined(says=may.says) if may.verdict is SigningVerdict.NO else None


def _covers(person: Person, role: Role) -> bool:
    if role is Role.SHARED_DESIGN:
        return Role.DESIGN in person.signs or role in person.signs
    return role in person.signs or (role is Role.MINOR_WORKS and set(person.signs) >= _WHOLE)


def signs_shown(roles: Iterable[Role]) -> str:
    """What somebody may sign, as it is typed."""
    held = set(roles)
    return ", ".join(name for name, role in SIGNS.items() if role in held)


def signs_in(typed: str) -> tuple[Role, ...] | str:
    """The roles that were typed, by their beginnings and with commas between; or the word that names none."""
    roles: list[Role] = []
    for part in filter(None, (each.strip().casefold() for each in typed.split(","))):
        meant = [role for name, role in SIGNS.items() if name.startswith(part)] if part != "all" else [*SIGNS.values()]
        if not meant:
            return part
        roles += meant
    return tuple(dict.fromkeys(roles))
