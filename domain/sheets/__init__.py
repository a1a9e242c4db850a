"""What the papers of a job say, sheet by sheet, in the order they are bound."""

from domain.job.job import Job
from domain.sheets.certificate import certificate_front
from domain.sheets.continuation import with_continuation
from domain.sheets.facts import Facts
from domain.sheets.guidance import guidance_for
from domain.sheets.inspection import inspection_schedule
from domain.sheets.minor_works import minor_works_form
from domain.sheets.pictures import pictures_of
from domain.sheets.plain_front import plain_front
from domain.sheets.plain_words import report_in_plain_words
from domain.sheets.proof import proof_of
from domain.sheets.report import report_front
from domain.sheets.schedules import schedules_of
from domain.sheets.sheet import ScheduleSheet, Sheet, TextSheet

_FRONTS = {
    "installation certificate": certificate_front,
    "minor works": minor_works_form,
    "condition report": report_front,
    "": plain_front,
}


def sheets_of(job: Job) -> tuple[Sheet, ...]:
    """Front, continuation, pictures, inspection schedule, guidance and proof; schedules by board; the page in plain words.

    What is laid upright stands together, so that each sheet goes on where the one before it ends, however short. There is a
    proof once it is issued. Otherwise a draft is the same: what is missing stands as a blank.
    """
    facts = Facts(job)
    others = _others(facts)
    sheets, continued = with_continuation((_front(facts, others), *others))
    if continued:
        # The front counts the continuation sheet too, so it is made once more.
        sheets, continued = with_continuation((_front(facts, (continued, *others)), *others))
    front, *rest = sheets
    return _in_order((front, *((continued,) if continued else ()), *rest, *_for_recipients(facts)))


def _in_order(sheets: tuple[Sheet, ...]) -> tuple[Sheet, ...]:
    return tuple(sorted(sheets, key=lambda sheet: 1 if isinstance(sheet, ScheduleSheet) else 2 * sheet.apart))


def _front(facts: Facts, others: tuple[Sheet, ...]) -> TextSheet:
    return _FRONTS[facts.job.profile.front](facts, _in_order((*others, *_for_recipients(facts))))


def _for_recipients(facts: Facts) -> tuple[TextSheet, ...]:
    plain = (report_in_plain_words(facts),) if facts.job.profile.states_a_condition else ()
    guidance = (guidance_for(facts),) if facts.job.profile.guidance else ()
    proof = (proof_of(facts.job),) if facts.job.issued else ()
    return (*guidance, *proof, *plain)


def _others(facts: Facts) -> tuple[Sheet, ...]:
    profile = facts.job.profile
    inspected = (inspection_schedule(facts),) if profile.checklist else ()
    return (*pictures_of(facts), *inspected, *(schedules_of(facts) if profile.has_schedules else ()))
