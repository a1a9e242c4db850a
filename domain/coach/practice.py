"""Which case comes next: those that are due, and first more of the kind that went wrong."""

from collections.abc import Mapping
from datetime import date

from domain.coach.answered import Answered
from domain.coach.case import Case, CaseKind
from domain.coach.leitner import due_on

APART = 3
"""Other answers between two askings of the same case."""
LOOKED_AT = 3
"""A kind goes wrong while one of this many answers to it was wrong."""


def next_case(cases: tuple[Case, ...], answered: tuple[Answered, ...], on: date) -> Case | None:
    """The case to ask; None when nothing is due on this day. A visit once begun is gone through."""
    history = by_case(answered)
    last = answered[-1].given.case if answered else ""
    due = [case for case in cases if is_due(history.get(case.id, ()), on) and _is_begun(case, history)]
    if not due:
        return None
    if follows := next((case for case in due if case.after == last and case.after and case.id not in history), None):
        return follows
    lately = [each.given.case for each in answered[-APART:]]
    kinds = {case.id: case.kind for case in cases}
    weak = {kind: _wrong_lately(kind, kinds, answered) for kind in CaseKind}
    asked = {kind: sum(kinds.get(each.given.case) is kind for each in answered) for kind in CaseKind}

    def rank(case: Case) -> tuple[int, int, int, int]:
        # The longer ago, the sooner, should nothing but cases just asked be due.
        recent = lately.index(case.id) + 1 if case.id in lately else 0
        return recent, -weak[case.kind], 0 if case.id in history else 1, asked[case.kind]

    return min(due, key=rank)


def next_day(answered: tuple[Answered, ...]) -> date | None:
    """The first day on which a case answered before is asked again."""
    return min((day for history in by_case(answered).values() if (day := due_on(history))), default=None)


def by_case(answered: tuple[Answered, ...]) -> Mapping[str, tuple[Answered, ...]]:
    """The answers to each case, oldest first."""
    history: dict[str, tuple[Answered, ...]] = {}
    for each in answered:
        history[each.given.case] = (*history.get(each.given.case, ()), each)
    return history


def is_due(history: tuple[Answered, ...], on: date) -> bool:
    """A case with these answers can be asked on a day."""
    day = due_on(history)
    return day is None or day <= on


def _is_begun(case: Case, history: Mapping[str, tuple[Answered, ...]]) -> bool:
    """What a visit asks first has been asked."""
    return not case.after or case.after in history


def _wrong_lately(kind: CaseKind, kinds: Mapping[str, CaseKind], answered: tuple[Answered, ...]) -> int:
    of_kind = [each for each in answered if kinds.get(each.given.case) is kind]
    return sum(not each.given.right for each in of_kind[-LOOKED_AT:])
