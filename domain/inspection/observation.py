"""What an inspector writes in a condition report, with one classification code each."""

from collections.abc import Iterable
from enum import StrEnum

from domain.place import Place
from domain.value import Line, Prose, Value


class Code(StrEnum):
    """Classification codes of a condition report."""

    C1 = "C1"
    C2 = "C2"
    C3 = "C3"
    FI = "FI"

    @property
    def meaning(self) -> str:
        """What the code says to the reader."""
        return _MEANINGS[self]

    @property
    def is_pressing(self) -> bool:
        """One of these is acted on without delay, whatever the outcome of the report; clocks of the law run for it."""
        return self is not Code.C3


_MEANINGS = {
    Code.C1: "Danger present. Risk of injury. Act at once.",
    Code.C2: "Potentially dangerous. Put right urgently.",
    Code.C3: "Improvement recommended.",
    Code.FI: "Further investigation required without delay.",
}


BY_GRAVITY = (Code.C1, Code.C2, Code.FI, Code.C3)
"""Codes in the order of haste."""


def gravest(codes: Iterable[Code]) -> Code | None:
    """The code that decides among several; None where there is none."""
    given = set(codes)
    return next((code for code in BY_GRAVITY if code in given), None)


class Observation(Value):
    """One finding of an inspection."""

    id: Line = ""
    finding: Prose
    code: Code
    where: Line = ""
    items: tuple[Line, ...] = ()
    """The inspection items it belongs to, such as 4.4."""
    about: Place | None = None
    """The box it was raised from, if any."""
    reason: Prose = ""
    """Why this code, in the inspector's own words."""
