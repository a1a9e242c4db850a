"""What a check says of the figures, and what is still missing. Both are derived, never stored."""

from collections.abc import Mapping
from enum import StrEnum

from domain.place import Place
from domain.source import Source
from domain.value import Value

DAYS_CHECK = "days"
"""The check of the days of a paper. No observation answers what it finds: it is put right, on a report too."""


class Severity(StrEnum):
    """What a finding asks of the person."""

    FAILS = "fails"
    """Keeps a certificate back; on a report it needs an observation."""
    ASK = "ask"
    """Looks wrong; needs a reason from a person, which is kept and printed."""
    NOTE = "note"


class Finding(Value):
    """One result of one check, known by check, case, place and what was typed; the wording is no part of that.

    `measured` and `limit` carry their units.
    """

    check: str
    case: str
    """Which of the things the check looks for; with the check the row of the catalogue."""
    place: Place
    also: tuple[Place, ...] = ()
    """The same box of other circuits of the board, of which the same is said; said once for all of them."""
    severity: Severity
    values: Mapping[str, str] = {}
    """What fills the sentence, by the name of its placeholder."""
    typed: Mapping[str, str] = {}
    """What a person typed that it is about: while this stays, so does an answer given to it."""
    measured: str = ""
    limit: str = ""
    source: Source | None = None
    working: str = ""
    """The sum behind the limit or the expected figure, with its numbers, where there is one."""
    word: str = ""
    """What kind of thing it is, such as `over limit` or `missing`."""
    says: str
    """The sentence for people, in the voice of the papers."""

    @property
    def places(self) -> tuple[Place, ...]:
        """Every box it is about, the one it stands at first."""
        return (self.place, *self.also)

    @property
    def id(self) -> str:
        """The row of the catalogue it was said with."""
        return f"{self.check}.{self.case}"


class Gap(Value):
    """A box that must be filled and is not, or that holds what cannot be read or cannot stand there."""

    kind: str
    """Which row of the gate's catalogue."""
    place: Place
    values: Mapping[str, str] = {}
    says: str
