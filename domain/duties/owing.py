"""What else is owed for a job by its answers, and the question that would tell more."""

from collections.abc import Hashable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Any, NamedTuple

from domain.duties.clock import DueBy
from domain.duties.duty import TOLD_TO_OTHERS, Duty, DutyKind, duties
from domain.duties.facts import facts_of, report_made
from domain.duties.next_inspection import lacks_kind, recommended_interval
from domain.edition import Edition, newest
from domain.forms.choice.answers import Answers, Dates
from domain.forms.choice.choosing import FormChoice
from domain.forms.choice.condition import DERIVED
from domain.forms.choice.question import Question, further_questions
from domain.forms.form_set import FormSet


@dataclass(frozen=True, slots=True)
class Owed:
    """One thing owed, with its day once that can be counted."""

    duty: Duty
    due: DueBy | None = None


@dataclass(frozen=True, slots=True)
class Owing:
    """Everything owed by the answers so far, and the next question that would add to it or settle it."""

    owed: tuple[Owed, ...] = ()
    ask: Question | None = None
    ask_for_days: Question | None = None
    """The next question that a day hangs on, or whether building control must know."""

    ask_for_others: Question | None = None
    """The next question that a word to building control or the distributor hangs on."""
    days: frozenset[str] = frozenset()
    """The days that clocks may run from, or that show a thing done, by their names."""

    @property
    def told_to_others(self) -> tuple[Owed, ...]:
        """What building control and the distributor are owed."""
        return tuple(each for each in self.owed if each.duty.kind in TOLD_TO_OTHERS)

    @property
    def is_notification_known(self) -> bool:
        """The answers say whether building control is told; a job that began without the interview may not say what was done."""
        return any(each.duty.kind is DutyKind.NOTIFICATION for each in self.owed)

    @property
    def clocks(self) -> tuple[Owed, ...]:
        """What has a day to be done by, soonest first."""
        dated = [each for each in self.owed if each.due]
        return tuple(sorted(dated, key=lambda each: (each.due.by, each.duty.id) if each.due else ()))


def owing(answers: Answers, choice: FormChoice, edition: Edition | None = None) -> Owing:
    """What is owed once the papers are decided; nothing before. Intervals by `edition`, else by the newest."""
    if not choice.is_decided:
        return Owing()
    some_day = {name: date.min for name in Dates.model_fields if getattr(answers, name)}
    given = tuple((dict(answers) | some_day).items())
    found = _owed_rows(given, choice.form_set, edition or newest(), report_made(answers))
    facts = dict(answers)
    owed = tuple(Owed(duty=duty, due=duty.clock.ends(facts) if duty.clock else None) for duty in found.holds)
    return Owing(
        owed=owed,
        ask=found.ask,
        ask_for_days=found.ask_for_days,
        ask_for_others=found.ask_for_others,
        days=found.days,
    )


class _OwedRows(NamedTuple):
    holds: tuple[Duty, ...]
    ask: Question | None
    ask_for_days: Question | None
    ask_for_others: Question | None
    days: frozenset[str]


@lru_cache(maxsize=4096)
def _owed_rows(
    given: tuple[tuple[str, Hashable], ...], form_set: FormSet | None, edition: Edition, made: str | None
) -> _OwedRows:
    # Which rows hold hangs on whether a day is known, and on which of two came first, never on the day itself:
    # a log of many jobs has few such cases.
    facts: dict[str, Any] = facts_of(Answers.model_validate(dict(given)), form_set)
    facts["report_made"] = made
    facts["notify"] = next(
        (duty.verdict.value for duty, missing in _possible(facts) if duty.verdict and not missing), None
    )
    possible = list(_possible(facts))
    open_rows = [(duty, missing) for duty, missing in possible if missing and not missing & DERIVED]
    kind = {"kind"} if lacks_kind(facts) else set[str]()
    recommended = recommended_interval(facts, edition)
    rows = (*(duty for duty, _ in possible), *((recommended,) if recommended else ()))
    return _OwedRows(
        holds=(*(duty for duty, missing in possible if not missing), *((recommended,) if recommended else ())),
        ask=_first(kind.union(*(missing for _, missing in open_rows))),
        ask_for_days=_first(kind.union(*(missing for duty, missing in open_rows if duty.clock or duty.verdict))),
        ask_for_others=_first(
            set[str]().union(*(missing for duty, missing in open_rows if duty.kind in TOLD_TO_OTHERS))
        ),
        days=frozenset(day for row in rows for day in (row.clock.start if row.clock else "", row.met_by) if day),
    )


def _first(missing: set[str]) -> Question | None:
    return next((question for question in further_questions() if question.id in missing), None)


def _possible(facts: Mapping[str, Any]) -> Iterator[tuple[Duty, frozenset[str]]]:
    """Each row that holds or still may, with what it lacks; of a group only up to the first that holds."""
    closed: set[str] = set()
    for duty in duties():
        missing = duty.left_open(facts)
        if missing is None or duty.group in closed or facts.get(duty.met_by):
            continue
        if duty.group:
            closed.add(duty.group)
        yield duty, missing
