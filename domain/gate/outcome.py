"""How a paper comes out."""

from enum import StrEnum


class Outcome(StrEnum):
    """What a paper says of the installation. Computed; nobody types it."""

    COMPLIES = "complies"
    SATISFACTORY = "satisfactory"
    SATISFACTORY_WITH_FI = "satisfactory+FI"
    """On paper satisfactory, with the FI beside it; what it names is looked into all the same."""
    UNSATISFACTORY = "unsatisfactory"

    @property
    def is_to_put_right(self) -> bool:
        """The report holds a C1, C2 or FI: law and good sense set clocks on those, whatever the word."""
        return self in {Outcome.UNSATISFACTORY, Outcome.SATISFACTORY_WITH_FI}

    @property
    def word(self) -> str:
        """The word as a paper prints it."""
        return "satisfactory" if self is Outcome.SATISFACTORY_WITH_FI else self.value
