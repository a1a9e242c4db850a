"""The snagging list: what must be put right before a certificate can exist."""

from datetime import date

from domain.place import Place
from domain.value import Line, Prose, Value, says_nothing


class Cleared(Value):
    """Who cleared a snag, when, and how it was put right."""

    by: Line
    on: date
    how: Prose


class Snag(Value):
    """Something a person found wrong with the work, raised and cleared by people."""

    id: Line = ""
    what: Prose
    where: Line = ""
    about: Place | None = None
    raised_by: Line
    raised_on: date
    cleared: Cleared | None = None

    @property
    def is_open(self) -> bool:
        """Still to be put right; what nobody cleared, or no word says how, is not cleared, whatever a document holds."""
        return self.cleared is None or says_nothing(self.cleared.by) or not self.cleared.how.strip()
