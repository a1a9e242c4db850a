"""The house whose certificate is keyed in, and what is looked at to tell that it came out."""

from collections.abc import Iterator, Mapping

from domain.checks import findings_of
from domain.editing.commands import MarkItems
from domain.inspection.item_outcome import InspectionOutcome
from domain.job.box import boxes_of, shown_in
from domain.job.job import Job, sections_for
from tests.builders import done
from tests.domain.checks.installations import INSTALLATIONS, job_of


def house() -> Job:
    """The job that is to come out: a house of sixteen circuits, with all that is typed and nothing that is signed."""
    return job_of(INSTALLATIONS["house of sixteen circuits"])


def marks_of(job: Job) -> Mapping[str, InspectionOutcome]:
    """What its inspection comes to: as it is written there; else N/A where the record denies the item or it passes by name, and a pass."""
    if job.inspection:
        return {outcome.item: outcome.mark for outcome in job.inspection}
    items = job.items
    ticked = done(job, MarkItems(items=tuple(item.number for item in items), mark=InspectionOutcome.PASS))
    denied = {finding.place.item for finding in findings_of(ticked) if finding.place.section == "inspection"}
    return {
        item.number: InspectionOutcome.NOT_APPLICABLE if item.lists or item.number in denied else InspectionOutcome.PASS
        for item in items
    }


def same(one: Job | None, other: Job) -> bool:
    """Every box shows and prints the same in both, and so do the observations."""
    return one is not None and list(_shown(one)) == list(_shown(other))


def _shown(job: Job) -> Iterator[str]:
    owners = [getattr(job, section) for section in sections_for(job.form_set)]
    for each in (*owners, *job.boards, *(circuit for _, circuit in job.circuits())):
        yield from (shown_in(each, name) for name in boxes_of(type(each)))
    for written in job.observations:
        yield from (written.finding, written.code, written.where, *written.items)
