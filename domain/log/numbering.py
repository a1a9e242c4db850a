"""How a log numbers its jobs: by letters of its own, so that numbers of two logs never meet."""

from typing import NamedTuple


class Numbering(NamedTuple):
    """The numbering as it is."""

    prefix: str
    """One to four letters."""
    device: str
    """Made by chance when the log was begun: it sets two logs apart that chose the same letters."""
    given: int
    """So many numbers have been given with these letters."""

    @property
    def last(self) -> str:
        """The number given last; "" while none is."""
        return f"{self.prefix}-{self.given:04d}" if self.given else ""

    @property
    def following(self) -> str:
        """The number that is given next, unless somebody else gets it first."""
        return f"{self.prefix}-{self.given + 1:04d}"
