"""How a paper comes out."""

from enum import StrEnum


class Outcome(StrEnum):
    """What a paper says of the installation. Computed; nobody types it."""

    COMPLIES = "complies"
    SATISFACTORY = "satisfactory"
    UNSATISFACTORY = "unsatisfactory"
