"""What of a job the days of its duties hang on; a log reads it without reading the job."""

from typing import NamedTuple

from domain.civil_time import civil_day
from domain.dates import date_in
from domain.edition import Edition
from domain.forms.choice.answers import Answers
from domain.forms.form_set import FormSet
from domain.gate.outcome import Outcome
from domain.gate.report_outcome import outcome_of
from domain.inspection.observation import Code
from domain.job.box import typed_in
from domain.job.job import Job
from domain.job.next_due import day_typed, next_inspection_typed


class DutyFacts(NamedTuple):
    """The answers, and the days as typed. `outcome` is that of a report issued here, or elsewhere, or known of a draft."""

    form_set: FormSet
    answers: Answers
    done_on: str = ""
    """The inspection, or the completion of the work."""
    next_inspection: str = ""
    issued_on: str = ""
    """As ISO 8601; "" for a draft."""
    outcome: Outcome | None = None
    remedy_within: str = ""
    """Days in which the report asks for urgent work, as typed."""
    contact: str = ""
    """How the office reaches the client about them."""
    edition: Edition | None = None
    """What the intervals are taken from; the newest where it is not told."""


def duty_facts(job: Job) -> DutyFacts:
    """What the duties of this job hang on."""
    return DutyFacts(
        form_set=job.form_set,
        answers=job.chosen.answers,
        done_on=day_typed(job),
        next_inspection=next_inspection_typed(job),
        issued_on=civil_day(job.issued.at).isoformat() if job.issued else "",
        outcome=_known_outcome(job),
        remedy_within=typed_in(job.report, "remedy_within"),
        contact=job.client.contact,
        edition=job.edition,
    )


def _known_outcome(job: Job) -> Outcome | None:
    """A draft whose observations are improvements alone asks for no work as it stands; of any other it is not known."""
    if job.issued or job.chosen.seen:
        return outcome_of(job)
    codes = {each.code for each in job.observations}
    return Outcome.SATISFACTORY if codes == {Code.C3} else None


def with_days(told: DutyFacts) -> Answers:
    """The answers given when the job began, with the days and the outcome that the papers tell."""
    profile = told.form_set.profile
    judged = told.outcome if profile.states_a_condition else None
    done_on = date_in(told.done_on)
    known = {
        profile.day_box: done_on,
        "issued_on": date_in(told.issued_on),
        "unsatisfactory": judged.is_to_put_right if judged else None,
        "remedy_within_days": int(days) if (days := told.remedy_within.strip()).isdecimal() and int(days) else None,
    }
    return told.answers.model_copy(update={name: value for name, value in known.items() if value is not None})
