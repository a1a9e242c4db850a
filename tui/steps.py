"""The steps of a job, and the step on which a place is found."""

from enum import StrEnum

from domain.circuit import DETAIL_BOXES
from domain.form_set import FormSet
from domain.place import Place


class Step(StrEnum):
    """One screen of a job, in the order the work goes."""

    DETAILS = "details"
    CIRCUITS = "circuits"
    RESULTS = "results"
    INSPECTION = "inspection"
    RAISED = "raised"
    REVIEW = "review"
    ISSUE = "issue"


def steps_for(form_set: FormSet) -> tuple[Step, ...]:
    """The steps a form set goes through; minor works has no inspection schedule."""
    return tuple(step for step in Step if step is not Step.INSPECTION or form_set.has_schedules)


def word_for(step: Step, form_set: FormSet) -> str:
    """The step's name where room is scarce."""
    if step is Step.RAISED:
        return "Observe" if form_set.is_report else "Snags"
    return _WORDS[step]


_WORDS = {
    Step.DETAILS: "Details",
    Step.CIRCUITS: "Circuits",
    Step.RESULTS: "Results",
    Step.INSPECTION: "Inspect",
    Step.REVIEW: "Check",
    Step.ISSUE: "Issue",
}

KEY_OF = {
    Step.DETAILS: "F3",
    Step.CIRCUITS: "F4",
    Step.RESULTS: "F5",
    Step.INSPECTION: "F6",
    Step.RAISED: "F7",
    Step.REVIEW: "F8",
    Step.ISSUE: "F9",
}


def step_of(place: Place) -> Step:
    """Where a person goes to mend what stands at a place."""
    if place.circuit:
        return Step.CIRCUITS if not place.box or place.box in DETAIL_BOXES else Step.RESULTS
    if place.board and not place.box:
        return Step.CIRCUITS
    if place.item or place.section == "inspection":
        return Step.INSPECTION
    if place.snag or place.observation:
        return Step.RAISED
    if place.section == "signatures":
        return Step.ISSUE
    if place.section == "chosen":
        return Step.REVIEW
    return Step.DETAILS
