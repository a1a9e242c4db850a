"""An issued record held against the gate once more: with its own edition, and the people of the register as they were then."""

from collections.abc import Sequence
from typing import NamedTuple

from domain.gate.assessment import Refusal, issue, unsigned_roles
from domain.gate.reason import ReasonKind
from domain.job.job import Job
from domain.register.entries import Person


class HeldAgain(NamedTuple):
    """What the gate says of a record now."""

    why: str = ""
    """Why it cannot have passed; "" where it can."""
    unproven: str = ""
    """What this version cannot tell of it; "" for nothing."""


def held_again(record: Job, people: Sequence[Person], ours: str) -> HeldAgain:
    """A record of this very program, as `ours` names it, is held against the whole gate.

    Rules may have changed since an earlier version, so of its records only what every gate asked for can keep them
    from having passed: a signature that stands in each role, by somebody who may sign it, and no open snag.
    """
    stamp = record.issued
    if stamp is None:
        return HeldAgain("it says nowhere that it was issued.")
    draft = record.model_copy(update={"issued": None})
    answer = issue(draft, by=stamp.by, at=stamp.at, people=people)
    if not isinstance(answer, Refusal):
        return HeldAgain()
    if stamp.set_by == ours:
        return HeldAgain(answer.reasons[0].says)
    if unsigned_roles(draft):
        return HeldAgain("it is not signed.")
    if draft.profile.takes_snags and draft.open_snags:
        return HeldAgain("a snag is open.")
    if refused := next((each for each in answer.reasons if each.kind is ReasonKind.SIGNER), None):
        return HeldAgain(refused.says)
    return HeldAgain(
        unproven=f"{stamp.set_by or 'Another version'} issued it; this one would say: {answer.reasons[0].says}"
    )
