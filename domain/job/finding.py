"""What a check says of the figures, and what is still missing. Both are derived, never stored."""

from enum import StrEnum

from domain.place import Place
from domain.source import Source
from domain.value import Value


class Severity(StrEnum):
    """What a finding asks of the person."""

    FAILS = "fails"
    """Keeps a certificate back; on a report it needs an observation."""
    ASK = "ask"
    """Looks wrong; needs a reason from a person, which is kept and printed."""
    NOTE = "note"


class Finding(Value):
    """One result of one check. `measured` and `limit` carry their units; `says` is a sentence for people."""

    check: str
    place: Place
    severity: Severity
    measured: str = ""
    limit: str = ""
    source: Source | None = None
    working: str = ""
    """The sum behind the limit or the expected figure, with its numbers, where there is one."""
    says: str


class Gap(Value):
    """A box that must be filled and is not, or that holds what cannot be read or cannot stand there."""

    place: Place
    says: str
