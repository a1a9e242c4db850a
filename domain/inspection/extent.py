"""How far an installation goes beyond a home of one board, which decides the list it is inspected by."""

from enum import StrEnum


class Extent(StrEnum):
    """What a section of the list can hang on."""

    DISTRIBUTION = "distribution"
    """A board is fed from another."""
    LARGER = "larger"
    """Three phases, or a device of more than a home is supplied through."""
    THREE_PHASES = "three phases"
