"""Who signs what, and whether a signature still stands."""

from collections.abc import Iterable
from enum import StrEnum

from domain.forms.form_set import FormSet
from domain.value import Line, Moment, Value


class Role(StrEnum):
    """The part of the work a signature answers for."""

    DESIGN = "design"
    SHARED_DESIGN = "design, second designer"
    CONSTRUCTION = "construction"
    INSPECTION = "inspection and testing"
    MINOR_WORKS = "design, construction, inspection and testing"
    INSPECTED = "inspected and tested"
    AUTHORISED = "authorised for issue"


def roles_for(form_set: FormSet, *, shared_design: bool = False) -> tuple[Role, ...]:
    """The roles that must be signed; one person may sign several, each as an act of its own."""
    first, *others = map(Role, form_set.profile.roles)
    if shared_design and first is Role.DESIGN:
        return (first, Role.SHARED_DESIGN, *others)
    return (first, *others)


class Signature(Value):
    """One person's signature for one role, over the job as it stood."""

    role: Role
    name: Line
    position: Line = ""
    firm: Line = ""
    """The firm they sign for, where it is not the one the paper names."""
    at: Moment
    fingerprint: Line
    """Of the job that was signed; the signature stands only while the job still has it."""


def shown_signed(signatures: Iterable[Signature]) -> str:
    """Who signed, each with the parts: `A. Fennel (design, construction)`."""
    by_name: dict[str, list[str]] = {}
    for each in signatures:
        by_name.setdefault(each.name.strip(), []).append(each.role)
    return "; ".join(f"{name} ({', '.join(roles)})" for name, roles in by_name.items())
