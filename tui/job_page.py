"""The steps of a job, and the step on which a place is found."""

from enum import StrEnum

from domain.forms.form_set import FormSet
from domain.job.circuit import DETAIL_BOXES
from domain.place import Place


class JobPage(StrEnum):
    """One screen of a job, in the order the work goes."""

    DETAILS = "details"
    CIRCUITS = "circuits"
    RESULTS = "results"
    INSPECTION = "inspection"
    RAISED = "raised"
    REVIEW = "review"
    ISSUE = "issue"


def steps_for(form_set: FormSet) -> tuple[JobPage, ...]:
    """The steps a form set goes through; minor works has no inspection schedule."""
    return tuple(step for step in JobPage if step is not JobPage.INSPECTION or form_set.profile.checklist)


def word_for(step: JobPage, form_set: FormSet) -> str:
    """The step's name where room is scarce."""
    if step is JobPage.RAISED:
        return "Observe" if form_set.profile.takes_observations else "Snags"
    return _WORDS[step]


_WORDS = {
    JobPage.DETAILS: "Details",
    JobPage.CIRCUITS: "Circuits",
    JobPage.RESULTS: "Results",
    JobPage.INSPECTION: "Inspect",
    JobPage.REVIEW: "Check",
    JobPage.ISSUE: "Issue",
}


def step_of(place: Place) -> JobPage:
    """Where a person goes to mend what stands at a place."""
    if place.circuit:
        return JobPage.CIRCUITS if not place.box or place.box in DETAIL_BOXES else JobPage.RESULTS
    if place.board and not place.box:
        return JobPage.CIRCUITS
    if place.item or place.section == "inspection":
        return JobPage.INSPECTION
    if place.snag or place.observation:
        return JobPage.RAISED
    if place.section == "signatures":
        return JobPage.ISSUE
    if place.section == "chosen":
        return JobPage.REVIEW
    return JobPage.DETAILS
