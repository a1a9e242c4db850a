"""A person's reason for what a check asked about: kept, and printed."""

from collections.abc import Mapping
from datetime import date
from typing import Annotated

from pydantic import Field

from domain.job.finding import Finding
from domain.place import Place
from domain.value import Line, Prose, Value, is_empty, says_nothing

_FORMERLY = {"phase-sequence": "supply-fits"}
"""Checks whose questions another asked when explanations named no case."""

EDITION_CHECK = "edition"
"""The check that asks why a job keeps to an edition; its reasons fall when the edition changes."""


class Explanation(Value):
    """Why something that looked wrong is right. It stands only while what was typed stays the same, however it is worded."""

    check: Line
    case: Annotated[Line, Field(exclude_if=is_empty)] = ""
    """Which question of the check; "" in a document that named none yet."""
    place: Place
    typed: Annotated[Mapping[Line, Line], Field(exclude_if=is_empty, max_length=100)] = {}
    """What the question was about, as typed, when it was answered."""
    measured: Line = ""
    """What the finding had measured when it was explained; decides only where no case is named."""
    reason: Prose
    by: Line
    on: date

    def answers(self, finding: Finding) -> bool:
        """This is the reason for that finding, given by somebody, what was typed unchanged."""
        if self.place != finding.place or says_nothing(self.by) or not self.reason.strip():
            return False
        if self.case:
            return (self.check, self.case, self.typed) == (finding.check, finding.case, finding.typed)
        return self.check in {finding.check, _FORMERLY.get(finding.check)} and self.measured == finding.measured
