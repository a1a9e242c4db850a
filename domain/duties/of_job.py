"""What is owed for a job, from its answers, its dates and its outcome."""

from dataclasses import replace
from datetime import date

from domain.dates import date_in
from domain.duties.clock import DueBy
from domain.duties.duty import Duty, DutyKind
from domain.duties.duty_facts import DutyFacts, duty_facts, with_days
from domain.duties.noted import DutyNotes, with_facts
from domain.duties.owing import Owed, Owing, owing
from domain.forms.choice.answers import Answers
from domain.forms.choice.choosing import FormChoice
from domain.job.job import Job
from domain.job.next_due import named_day
from domain.source import Source, Trust

NAMED = Duty(
    id="next inspection named",
    kind=DutyKind.INTERVAL,
    who="the owner",
    what="The next inspection and test, as the document names it.",
    source=Source(standard="The document itself", trust=Trust.COMMON_PRACTICE),
)
"""What a document itself names, beside the rows of the tables."""


def facts_in(job: Job, notes: DutyNotes | None = None) -> Answers:
    """The answers given when the job began, with what has been typed since and learnt later."""
    return _facts(duty_facts(job), notes)


def owing_for(job: Job, notes: DutyNotes | None = None, *, put_right: bool = False) -> Owing:
    """Everything owed for a job; of what its document and the law say on the next inspection, the sooner."""
    return owing_by(duty_facts(job), notes, put_right=put_right)


def owing_by(told: DutyFacts, notes: DutyNotes | None = None, *, put_right: bool = False) -> Owing:
    """The same, from what of the job its duties hang on."""
    met = notes.met if notes else frozenset[object]()
    found = owing(_facts(told, notes), FormChoice(form_set=told.form_set, leads_to=(told.form_set,)), told.edition)
    open_ = [
        each
        for each in (*found.owed, *_named(told))
        if not (each.due and (each.duty.id, each.due.by) in met) and not (put_right and _asks_for_work(each.duty))
    ]
    looks = [each for each in open_ if _is_look(each)]
    soonest = min(looks, key=lambda each: each.due.by if each.due else date.max, default=None)
    return replace(found, owed=tuple(each for each in open_ if each is soonest or not _is_look(each)))


def _is_look(each: Owed) -> bool:
    return each.due is not None and each.duty.kind is DutyKind.INTERVAL


def _facts(told: DutyFacts, notes: DutyNotes | None) -> Answers:
    # What the paper itself says of its days goes before what was noted beside it.
    return with_days(told._replace(answers=with_facts(told.answers, notes.answers)) if notes else told)


def _asks_for_work(duty: Duty) -> bool:
    return duty.met_by == "remedied_on"


def _named(told: DutyFacts) -> tuple[Owed, ...]:
    by = named_day(told.next_inspection, date_in(told.done_on))
    return (Owed(duty=NAMED, due=DueBy(by=by, counted="as the document names it")),) if by else ()
