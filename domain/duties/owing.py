"""What else is owed for a job by its answers, and the question that would tell more."""

from collections.abc import Iterator, Mapping
from typing import Any

from domain.choice.answers import Answers
from domain.choice.choosing import FormChoice
from domain.choice.condition import DERIVED
from domain.choice.question import Question, further_questions
from domain.duties.clock import DueBy
from domain.duties.duty import Duty, duties
from domain.duties.facts import facts_of
from domain.duties.next_inspection import lacks_kind, recommended_interval
from domain.value import Value


class Owed(Value):
    """One thing owed, with its day once that can be counted."""

    duty: Duty
    due: DueBy | None = None


class Owing(Value):
    """Everything owed by the answers so far, and the next question that would add to it or settle it."""

    owed: tuple[Owed, ...] = ()
    ask: Question | None = None
    ask_for_days: Question | None = None
    """The next question that a day hangs on, or whether building control must know."""

    @property
    def clocks(self) -> tuple[Owed, ...]:
        """What has a day to be done by, soonest first."""
        dated = [each for each in self.owed if each.due]
        return tuple(sorted(dated, key=lambda each: (each.due.by, each.duty.id) if each.due else ()))


def owing(answers: Answers, choice: FormChoice, table: tuple[Duty, ...] | None = None) -> Owing:
    """What is owed once the papers are decided; nothing before."""
    if not choice.is_decided:
        return Owing()
    facts: dict[str, Any] = facts_of(answers, choice)
    rows = duties() if table is None else table
    facts["notify"] = next(
        (duty.verdict.value for duty, missing in _standing(rows, facts) if duty.verdict and not missing), None
    )
    standing = list(_standing(rows, facts))
    open_rows = [(duty, missing) for duty, missing in standing if missing and not missing & DERIVED]
    kind = {"kind"} if lacks_kind(facts) else set[str]()
    holds = [
        Owed(duty=duty, due=duty.clock.ends(facts) if duty.clock else None) for duty, open_ in standing if not open_
    ]
    recommended = recommended_interval(facts)
    if recommended:
        holds.append(Owed(duty=recommended, due=recommended.clock.ends(facts) if recommended.clock else None))
    return Owing(
        owed=tuple(holds),
        ask=_first(kind.union(*(missing for _, missing in open_rows))),
        ask_for_days=_first(kind.union(*(missing for duty, missing in open_rows if duty.clock or duty.verdict))),
    )


def _first(missing: set[str]) -> Question | None:
    return next((question for question in further_questions() if question.id in missing), None)


def _standing(rows: tuple[Duty, ...], facts: Mapping[str, Any]) -> Iterator[tuple[Duty, frozenset[str]]]:
    """Each row that holds or still may, with what it lacks; of a group only up to the first that holds."""
    closed: set[str] = set()
    for duty in rows:
        missing = duty.left_open(facts)
        if missing is None or duty.group in closed or facts.get(duty.met_by):
            continue
        if duty.group:
            closed.add(duty.group)
        yield duty, missing
