"""The certificate that stands beside a report of the same visit: a job of its own, at the same place."""

from datetime import date

from domain.editing.carrying import details_of, with_details
from domain.editing.commands import CarryOver
from domain.forms.choice.choosing import choose
from domain.forms.choice.chosen import ChosenPapers
from domain.job.job import Job
from domain.job.start import new_job


def certificate_beside(report: Job, *, on: date) -> Job | None:
    """A fresh certificate for what was put right, with client, place, supply and firm of the report.

    None where the answers the report began with ask for none. Readings, boards and observations are not taken over:
    the certificate says what was built and tested for it.
    """
    beside = choose(report.chosen.answers).beside
    if beside is None:
        return None
    chosen = ChosenPapers(form_set=beside, advised=beside, answers=report.chosen.answers)
    return at_the_same_place(new_job(chosen, on=on, firm=report.firm, instruments=report.instruments), report)


def at_the_same_place(job: Job, report: Job) -> Job:
    """A job with client, place and supply of a report of the same visit."""
    details = details_of(report)
    job = with_details(job, CarryOver(earlier=details.earlier, boxes=details.boxes))
    return job.model_copy(update={"client": report.client})
