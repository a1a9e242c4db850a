"""What is owed for a job, from its answers, its dates and its outcome."""

from typing import Any

from domain.choice.answers import Answers
from domain.choice.choosing import FormChoice
from domain.dates import date_in
from domain.duties.clock import DueBy
from domain.duties.duty import Duty, Kind
from domain.duties.noted import Notes, with_facts
from domain.duties.owing import Owed, Owing, owing
from domain.gate import Outcome, outcome_of
from domain.job import Job
from domain.limits.source import Source, Trust
from domain.next_due import next_due


def facts_in(job: Job, notes: Notes | None = None) -> Answers:
    """The answers given when the job began, with what has been typed since and learnt later."""
    known: dict[str, Any] = {
        "completed_on": date_in(job.work.completed_on),
        "inspected_on": date_in(job.report.inspected_on),
        "issued_on": job.issued.at.date() if job.issued else None,
        "unsatisfactory": outcome_of(job) is Outcome.UNSATISFACTORY if job.issued and job.form_set.is_report else None,
    }
    typed = with_facts(job.chosen.answers, Answers.model_validate(known))
    return with_facts(typed, notes.answers) if notes else typed


def owing_for(job: Job, notes: Notes | None = None, *, put_right: bool = False) -> Owing:
    """Everything owed for a job; of what its document and the law say on the next inspection, the sooner."""
    told = notes or Notes()
    found = owing(facts_in(job, told), FormChoice(form_set=job.form_set, leads_to=(job.form_set,)))
    open_ = [
        each
        for each in (*found.owed, *_named(job))
        if not (each.due and (each.duty.id, each.due.by) in told.met) and not (put_right and _asks_for_work(each.duty))
    ]
    later = [
        each for each in found.model_copy(update={"owed": tuple(open_)}).clocks if each.duty.kind is Kind.INTERVAL
    ][1:]
    return found.model_copy(update={"owed": tuple(each for each in open_ if each not in later)})


def _asks_for_work(duty: Duty) -> bool:
    return duty.met_by == "remedied_on"


def _named(job: Job) -> tuple[Owed, ...]:
    by = next_due(job)
    if by is None:
        return ()
    duty = Duty(
        id="next inspection named",
        kind=Kind.INTERVAL,
        who="the owner",
        what="The next inspection and test, as the document names it.",
        source=Source(standard="The document itself", trust=Trust.COMMON_PRACTICE),
    )
    return (Owed(duty=duty, due=DueBy(by=by, counted="as the document names it")),)
