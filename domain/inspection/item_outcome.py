"""The mark an inspector sets against an item."""

from enum import StrEnum

from domain.forms.form_set import FormSet
from domain.inspection.checklist import ChecklistItem
from domain.inspection.observation import Code
from domain.value import Line, Prose, Value, says_nothing


class InspectionOutcome(StrEnum):
    """Outcomes of an item. A certificate takes only PASS and N/A."""

    PASS = "✓"
    C1 = "C1"
    C2 = "C2"
    C3 = "C3"
    FI = "FI"
    NOT_VERIFIED = "N/V"
    LIMITATION = "LIM"
    NOT_APPLICABLE = "N/A"

    @property
    def code(self) -> Code | None:
        """The classification this mark carries, if it is one."""
        return Code(self.value) if self.value in Code.__members__ else None


def marks_for(form_set: FormSet) -> tuple[InspectionOutcome, ...]:
    """The marks a form set allows, in the order they are offered."""
    return tuple(map(InspectionOutcome, form_set.profile.item_marks or InspectionOutcome))


class ItemOutcome(Value):
    """What was found at one inspection item."""

    item: Line
    mark: InspectionOutcome
    note: Prose = ""
    """A remark on a pass; the reason for LIM or N/V."""


def lacks_names(item: ChecklistItem, outcome: ItemOutcome | None) -> bool:
    """Passed, while the item asks for each thing by name and none is named."""
    return bool(item.lists and outcome and outcome.mark is InspectionOutcome.PASS and says_nothing(outcome.note))
