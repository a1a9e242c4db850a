"""The job that puts observations of a report right: what is known of the place, and what has to be done."""

from collections.abc import Iterable

from domain.editing.carrying import details_of, with_details
from domain.editing.commands import CarryOver
from domain.editing.putting_forward import marked, newly_filled
from domain.inspection.observation import Observation
from domain.job.job import Job
from domain.value import PROSE_MAX


def remedy_of(job: Job, report: Job, observations: Iterable[Observation]) -> Job:
    """A fresh job with client, place, supply and earthing of the report, and the findings as the work to do."""
    details = details_of(report)
    before, job = job, with_details(job, CarryOver(earlier=details.earlier, boxes=details.boxes))
    job = marked(job, newly_filled(before, job))
    numbers = {each.id: at for at, each in enumerate(report.observations, start=1)}
    lines = [
        f"Observation {numbers[each.id]} ({each.code}){f', {each.where}' if each.where.strip() else ''}: {each.finding}"
        for each in observations
        if each.id in numbers
    ]
    to_do = f"To put right on report {report.number}:\n" + "\n".join(lines)
    work = job.work.model_copy(update={"description": to_do[:PROSE_MAX]})
    return job.model_copy(update={"client": report.client, "work": work})
