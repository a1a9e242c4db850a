"""What may be noted of a report that is being put right: only what proves something, and only while it is open."""

from datetime import date

from domain.dates import written
from domain.inspection.observation import Code, Observation
from domain.job.job import Job
from domain.job.next_due import done_on
from domain.log.put_right.no_certificate import work_of
from domain.log.put_right.notes import How, RemedyNote
from domain.log.put_right.remedial_status import can_be_put_right
from domain.value import is_hollow


def reason_against(
    report: Job, note: RemedyNote, remedy: Job | None, today: date, *, replaced: bool, put_right: bool
) -> str:
    """Why a note cannot be kept of a report; "" where it can. `remedy` is the job of the log that the note names."""
    if not can_be_put_right(report):
        return f"{report.number} is no report issued, or seen elsewhere, with a C1, C2 or FI; there is nothing to put right"
    if replaced:
        return f"{report.number} has been replaced by a correction; put that one right"
    if put_right:
        return f"{report.number} stands in the log as put right; what is found later belongs to a new inspection"
    observation = next((each for each in report.observations if each.id == note.observation), None)
    if observation is None:
        return "That observation is not on the report"
    if note.how is How.CERTIFICATE:
        return _no_remedy(remedy, report, note.number)
    return "" if note.how is How.OPEN else _incomplete(report, observation, note, today)


def _no_remedy(job: Job | None, report: Job, number: str) -> str:
    if job is None:
        return f"There is no job {number!r} in this log"
    if job.profile.states_a_condition:
        return f"{number} is a report; what was found is put right by work, and work is certified"
    if job.issued and _is_before(done_on(job), report):
        return f"{number} was completed before the report was made, so it does not put right what was found"
    return ""


def _incomplete(report: Job, observation: Observation, note: RemedyNote, today: date) -> str:
    if note.how is How.NOTHING_WRONG and observation.code is not Code.FI:
        return f"{observation.code} was found wrong; only FI, further investigation, can end with nothing wrong"
    if note.how is How.NOTHING_WRONG and not (note.says.strip() and note.by.strip()):
        return "Say what was looked into, and who found nothing wrong"
    if note.how is How.NO_CERTIFICATE and not work_of(note.because):
        return "Only a like-for-like exchange of an accessory or of equipment needs no certificate"
    if note.how is How.NO_CERTIFICATE and (is_hollow(note.says) or is_hollow(note.by)):
        return "Say what was done, and who did it"
    if note.how is How.PAPER and not (note.number.strip() and note.firm.strip()):
        return "A paper of another firm needs its number and the firm"
    if note.on is None:
        return "It needs the day, such as 25/11/2026"
    if note.on > today:
        return f"{written(note.on)} has not come yet"
    if _is_before(note.on, report):
        return f"{written(note.on)} lies before the day of the report"
    return ""


def _is_before(day: date | None, report: Job) -> bool:
    inspected = done_on(report)
    return day is not None and inspected is not None and day < inspected
