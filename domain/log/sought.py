"""What one thing a person typed may stand as in the words of a job."""

from typing import NamedTuple


class Sought(NamedTuple):
    """One way in which a thing asked may be written in a job."""

    text: str
    """Folded, one word as the log holds words."""
    begun: bool = False
    """A word that begins so is enough."""
    column: str = ""
    """Where alone it counts: client, place or when; "" for client, place and all else."""
    quality: float = 1.0
    """How sure it is that this was meant; 1 as typed."""


class Concept(NamedTuple):
    """One thing that was asked, as typed, and every way in which a job may hold it."""

    typed: str
    ways: tuple[Sought, ...]
