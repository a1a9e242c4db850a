"""Inspection items of what the rest of the record says is not there: no other source, no electrode."""

from domain.checks.whole_paper.agreement import CONDITIONS, agreement_rules
from domain.checks.whole_paper.agreement_record import Record
from domain.inspection.checklist import ChecklistItem
from domain.inspection.item_outcome import InspectionOutcome
from domain.job.job import Job

_ABSENT = frozenset({"no-source-ticked", "electrode-ticked"})
"""Rules about what an installation may well be without. A protection that it lacks is a matter of judgement and stays open."""


def not_there(job: Job) -> tuple[ChecklistItem, ...]:
    """The items without a mark that a tick would contradict, since the record itself denies their subject."""
    record, checklist = Record(job, ()), job.profile.checklist
    marked = {outcome.item for outcome in job.inspection}
    denied = {
        item
        for rule in agreement_rules().rule
        if rule.case in _ABSENT and rule.mark is InspectionOutcome.PASS
        for item in rule.items(checklist)
        if all(CONDITIONS[name](record) for name in rule.when)
    }
    return tuple(each for each in job.items if each.number in denied and each.number not in marked)
