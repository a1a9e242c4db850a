"""A person's reason for what a check asked about: kept, and printed."""

from datetime import date

from domain.job.finding import Finding
from domain.place import Place
from domain.value import Line, Prose, Value


class Explanation(Value):
    """Why something that looked wrong is right. It stands only while the reading asked about stays the same."""

    check: Line
    place: Place
    measured: Line = ""
    """What the finding had measured when it was explained."""
    reason: Prose
    by: Line
    on: date

    def answers(self, finding: Finding) -> bool:
        """This is the reason for that finding, its figures unchanged."""
        return (self.check, self.place, self.measured) == (finding.check, finding.place, finding.measured)
