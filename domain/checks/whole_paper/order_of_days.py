"""The days of a paper against each other, and the next inspection against the law on rented homes."""

import re
import tomllib
from collections.abc import Iterator, Mapping
from datetime import date
from functools import cache
from importlib.resources import files

from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.phrases import phrase
from domain.dates import written
from domain.figures.limits.intervals import longest_anywhere_let, longest_recommended, longest_where_let
from domain.job.days_told import DayName, DayTold, days_told
from domain.job.finding import DAYS_CHECK, Finding, Severity
from domain.job.job import Job
from domain.job.next_due import NEXT_INSPECTION, done_on, next_inspection_typed, years_on
from domain.place import Place
from domain.value import Value, says_nothing
from domain.words import capitalised

_found = FindingFactory(DAYS_CHECK)
_SAYS_WHEN = re.compile(r"[0-9]|\b(?:year|month|week|change|occupan|tenan)", re.IGNORECASE)
_SAYS_LET = re.compile(
    r"(?<!no )(?<!not a )(?<!not )(?<!not to )\b(?:tenants?|tenanted|tenancy|let|letting|rented|landlord(?:'s)?)\b",
    re.IGNORECASE,
)


_PHRASES: Mapping[DayName, str] = {
    DayName.EARLIER: "day-earlier-report",
    DayName.DESIGN: "day-design",
    DayName.START: "day-start",
    DayName.TEST: "day-test",
    DayName.FIRST_DAY: "day-first-day-of-inspection",
    DayName.LAST_DAY: "day-last-day-of-inspection",
    DayName.COMPLETION: "day-completion",
    DayName.NEXT: "day-next-inspection",
}


class DayRule(Value):
    """That one day comes before another; a row of the table."""

    form_sets: tuple[str, ...]
    earlier: DayName
    later: DayName
    at: DayName
    """The one whose box it is said at."""
    severity: Severity
    out_of_order: Severity | None = None
    """How grave the wrong order is, where not as grave as too many days between them."""
    strictly: bool = False
    """The same day will not do either."""
    apart: int | None = None
    """Days between them that are still believed."""
    unless: DayName | None = None
    """Nothing to ask where this day is told."""


@cache
def day_rules(form_set: str) -> tuple[DayRule, ...]:
    """The rules for a form set, in their order; none for one the table does not name."""
    text = files("domain.checks.whole_paper").joinpath("order_of_days.toml").read_text("utf-8")
    rules = (DayRule.model_validate(row) for row in tomllib.loads(text)["rule"])
    return tuple(rule for rule in rules if form_set in rule.form_sets)


def order_of_days(job: Job) -> Iterator[Finding]:
    """What cannot be fails, on reports too; what may have its reason asks for it. Both days are named."""
    told = days_told(job)
    broken: set[tuple[str, ...]] = set()
    for rule in day_rules(job.form_set):
        if rule.unless in {each.name for each in told}:
            continue
        for first in (each for each in told if each.name is rule.earlier):
            for then in (each for each in told if each.name is rule.later):
                pair = (first.name, first.place.board, then.name, then.place.board)
                if pair not in broken and (broke := _broken(rule, first.day, then.day)):
                    broken.add(pair)
                    yield _of(job, rule, broke, (first, then))
    by_law = tuple(_beyond_the_law(job, told))
    yield from by_law or _next_inspection(job, told)


def _broken(rule: DayRule, first: date, then: date) -> tuple[Severity, str] | None:
    """How gravely, and in which way; None where the rule is kept."""
    if first > then or (rule.strictly and first == then):
        severity = rule.out_of_order or rule.severity
        return severity, "cannot-be" if severity is Severity.FAILS else "out-of-order"
    if rule.apart is None or (then - first).days <= rule.apart:
        return None
    if rule.unless:
        return rule.severity, "first-day-not-told"
    return rule.severity, "too-far-apart" if rule.severity is Severity.FAILS else "far-apart"


def _of(job: Job, rule: DayRule, broke: tuple[Severity, str], pair: tuple[DayTold, DayTold]) -> Finding:
    severity, case = broke
    first, then = pair
    named, named_then = (phrase(_PHRASES[each.name], board=each.board) for each in pair)
    return _found(
        job,
        (first if rule.at is first.name else then).place,
        severity,
        case,
        typed={"first": first.day.isoformat(), "then": then.day.isoformat()},
        said={
            "opens": capitalised(named),
            "first": named,
            "then": named_then,
            "first_day": written(first.day),
            "then_day": written(then.day),
            "apart": f"{(then.day - first.day).days:,}",
        },
    )


def _next_inspection(job: Job, told: tuple[DayTold, ...]) -> Iterator[Finding]:
    """The next inspection names a day or an interval, and none that neither law nor guidance knows for any premises."""
    typed, done = next_inspection_typed(job), done_on(job)
    if not job.profile.names_next_inspection or says_nothing(typed) or done is None:
        return
    due = next((each for each in told if each.name is DayName.NEXT), None)
    place = Place(section=job.profile.section, box=NEXT_INSPECTION)
    if due is None and not _SAYS_WHEN.search(typed):
        yield _found(job, place, Severity.ASK, "next-says-no-day", said={"typed": typed.strip()})
    limit, case = longest_recommended(job.edition), "beyond-guidance"
    let = " / ".join(each.strip() for each in (job.premises.occupier, job.report.reason, job.report.interval_reason))
    if job.profile.states_a_condition and _SAYS_LET.search(let) and not job.chosen.answers.tenure:
        limit, case = longest_anywhere_let(job.edition), "beyond-the-law-if-let"
    latest = years_on(done, int(limit.value))
    if due and latest and due.day > latest:
        said = {"due": written(due.day), "done": written(done), "latest": written(latest)}
        typed_too = {"done": done.isoformat(), "let": let}
        yield _found(job, due.place, Severity.ASK, case, limit=limit, typed=typed_too, said=said)


def _beyond_the_law(job: Job, told: tuple[DayTold, ...]) -> Iterator[Finding]:
    """A report that names a later day than the law allows fails; a certificate, which law counts as one at times, asks."""
    answers, done = job.chosen.answers, done_on(job)
    limit = longest_where_let(answers.nation, answers.tenure, job.edition)
    due = next((each for each in told if each.name is DayName.NEXT), None)
    if limit is None or due is None or done is None:
        return
    latest = years_on(done, int(limit.value))
    if latest is None or due.day <= latest:
        return
    is_report = job.profile.states_a_condition
    yield _found(
        job,
        due.place,
        Severity.FAILS if is_report else Severity.ASK,
        "beyond-the-law" if is_report else "beyond-the-law-for-certificate",
        limit=limit,
        typed={"done": done.isoformat(), "let": f"{answers.nation}, {answers.tenure}"},
        said={
            "nation": str(answers.nation),
            "due": written(due.day),
            "done": written(done),
            "latest": written(latest),
        },
    )
