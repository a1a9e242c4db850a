"""Items that an inspector adds for premises the usual list does not fit."""

from typing import Annotated

from pydantic import Field

from domain.inspection.checklist import ChecklistItem
from domain.value import Line, Value

OWN = "A"
"""What their numbers begin with."""

SECTION = "Added for these premises"


class OwnItem(Value):
    """One row beyond the list."""

    item: Line
    """Its number, such as A1."""
    title: Annotated[Line, Field(min_length=1)]
    regulations: Line = ""

    @property
    def listed(self) -> ChecklistItem:
        """The row as an item of the list."""
        return ChecklistItem(number=self.item, section=SECTION, title=self.title, regulations=self.regulations)
