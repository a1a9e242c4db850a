"""What an inspector writes in a condition report, with one classification code each."""

from collections.abc import Iterable
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from domain.place import Place
from domain.value import Line, Prose, Value, is_empty, is_hollow

ANSWERS_MAX = 10_000
"""Failures one observation may answer."""


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


def is_gentler(code: Code, other: Code) -> bool:
    """The code asks for less haste than the other."""
    return BY_GRAVITY.index(code) > BY_GRAVITY.index(other)


class ImmediateAction(Value):
    """What was done at once about a C1: whether it was made safe, how or why not, and who was told when."""

    made_safe: bool
    how: Prose
    told: Line
    told_at: Line
    """Day and time, as typed."""

    @property
    def is_told(self) -> bool:
        """Every part says something."""
        return not any(is_hollow(text) for text in (self.how, self.told, self.told_at))

    @property
    def sentence(self) -> str:
        """For papers and screens."""
        safe = "Made safe" if self.made_safe else "Not made safe"
        return f"{safe}: {self.how.strip().rstrip('.')}. Told: {self.told.strip()}, {self.told_at.strip()}."


class Observation(Value):
    """One finding of an inspection. What it answers is a list of places: no word of its texts answers anything."""

    id: Line = ""
    finding: Prose
    code: Code
    where: Line = ""
    items: tuple[Line, ...] = ()
    """The inspection items it belongs to, such as 4.4."""
    about: Place | None = None
    """The box it was raised from, if any: where to go from it. It answers nothing."""
    reason: Prose = ""
    """Why this code, in the inspector's own words."""
    answers: Annotated[tuple[Place, ...], Field(exclude_if=is_empty, max_length=ANSWERS_MAX)] = ()
    """The failing boxes it speaks of: of a circuit, a board, a page, or an inspection item."""
    lowered_from: Annotated[Code | None, Field(exclude_if=is_empty)] = None
    """The gravest code it ever had, where the one it has now is gentler."""
    action: Annotated[ImmediateAction | None, Field(exclude_if=is_empty)] = None
    """What was done at once, where it is or was a C1."""

    def does_answer(self, place: Place) -> bool:
        """It speaks of the failure at a place: named in its list, or an inspection item it belongs to."""
        return place in self.answers or (bool(place.item) and place.item in self.items)


def gravest_first(observations: Iterable[Observation]) -> list[tuple[int, Observation]]:
    """Observations with the numbers they were given as they were raised, the most pressing first."""
    numbered = enumerate(observations, start=1)
    return sorted(numbered, key=lambda each: (BY_GRAVITY.index(each[1].code), each[0]))
