"""Why a paper is held back."""

from enum import StrEnum

from domain.place import Place
from domain.value import Value


class ReasonKind(StrEnum):
    """The kinds of thing that hold a paper back."""

    SNAG = "open snag"
    FINDING = "failing reading"
    QUESTION = "question to answer"
    GAP = "gap"
    SIGNATURE = "signature missing"
    SIGNER = "may not sign"
    """The register of people does not let the one who signed sign for that part."""
    DATE = "date"
    ISSUED = "issued already"
    REPLACES = "replaces"
    """It says it replaces a paper, and was not begun as its correction."""
    ELSEWHERE = "seen elsewhere"
    """Another firm issued it; it is followed here, and is not this firm's to issue."""
    EARLIER = "dated before the last paper"
    """The log's papers would not be dated in their order; a person may say that the day is right."""
    NOT_HERE = "not to be issued here"
    """Somebody else has it out, or this laptop may issue nothing until it has met the office."""
    CHANGED = "changed meanwhile"
    """Somebody changed the job while its paper was being made."""


class Reason(Value):
    """One thing that holds the paper back, and where to go to mend it."""

    kind: ReasonKind
    id: str
    """Which finding (`check.case`), gap or rule of the gate it is: one word for scripts, whatever the sentence."""
    place: Place
    says: str
