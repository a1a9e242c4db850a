"""How somebody's practice stands, on one page for a supervisor."""

from datetime import date

from domain.coach.answered import Answered
from domain.coach.case import Case, CaseKind
from domain.coach.leitner import RESTS, box_after
from domain.coach.practice import by_case, is_due, next_day
from domain.value import Value

DAYS_SHOWN = 7
WRONG_SHOWN = 5
NEXT_SHOWN = 3


class KindLine(Value):
    """One kind of case."""

    kind: CaseKind
    cases: int
    """How many there are."""
    met: int
    """How many were asked at least once."""
    answers: int
    right: int
    settled: int
    """How many lie in the last two boxes."""
    open: int
    """How many went wrong when last asked."""


class DayLine(Value):
    """One day of practice."""

    on: date
    answers: int
    right: int


class WrongLine(Value):
    """A case that goes wrong."""

    case: str
    kind: CaseKind
    told: str
    ask: str
    answered: str
    """The answer given last time it went wrong."""
    right: str
    times: int
    last: date
    mended: bool
    """Answered right since."""


class Summary(Value):
    """What was answered, by kind and by day, and what goes wrong."""

    who: str
    on: date
    answers: int
    right: int
    kinds: tuple[KindLine, ...]
    days: tuple[DayLine, ...]
    """The last days of practice, the newest first."""
    days_in_all: int
    wrong: tuple[WrongLine, ...]
    """What still goes wrong first, then what went wrong most often."""
    due: int
    """How many cases can be asked on this day."""
    again: date | None
    """When the first of those answered comes again, where none is due."""

    @property
    def practise_next(self) -> tuple[KindLine, ...]:
        """The kinds to turn to first: those that go wrong, then those hardly met."""
        weak = [line for line in self.kinds if line.open or line.met < line.cases]
        return tuple(sorted(weak, key=lambda line: (-line.open, line.met / line.cases))[:NEXT_SHOWN])


def summary_of(who: str, answered: tuple[Answered, ...], cases: tuple[Case, ...], on: date) -> Summary:
    """The summary of one person's answers; answers to cases that no longer exist are left out."""
    known = {case.id: case for case in cases}
    counted = tuple(each for each in answered if each.given.case in known)
    history = by_case(counted)
    days = sorted({each.at.date() for each in counted}, reverse=True)
    wrong = [_wrong_line(known[name], held) for name, held in history.items() if not all(a.given.right for a in held)]
    wrong.sort(key=lambda line: (line.mended, -line.times, -line.last.toordinal()))
    return Summary(
        who=who,
        on=on,
        answers=len(counted),
        right=_right(counted),
        kinds=tuple(_kind_line(kind, cases, counted) for kind in CaseKind),
        days=tuple(_day_line(day, counted) for day in days[:DAYS_SHOWN]),
        days_in_all=len(days),
        wrong=tuple(wrong),
        due=sum(is_due(history.get(case.id, ()), on) for case in cases),
        again=next_day(counted),
    )


def _kind_line(kind: CaseKind, cases: tuple[Case, ...], answered: tuple[Answered, ...]) -> KindLine:
    names = {case.id for case in cases if case.kind is kind}
    of_kind = tuple(each for each in answered if each.given.case in names)
    history = by_case(of_kind)
    return KindLine(
        kind=kind,
        cases=len(names),
        met=len(history),
        answers=len(of_kind),
        right=_right(of_kind),
        settled=sum(box_after(held) >= len(RESTS) - 2 for held in history.values()),
        open=sum(not held[-1].given.right for held in history.values()),
    )


def _day_line(day: date, answered: tuple[Answered, ...]) -> DayLine:
    of_day = tuple(each for each in answered if each.at.date() == day)
    return DayLine(on=day, answers=len(of_day), right=_right(of_day))


def _wrong_line(case: Case, history: tuple[Answered, ...]) -> WrongLine:
    wrong = [each for each in history if not each.given.right]
    return WrongLine(
        case=case.id,
        kind=case.kind,
        told=case.told,
        ask=case.ask,
        answered=case.answers.get(wrong[-1].given.answer, wrong[-1].given.answer),
        right=case.right_words,
        times=len(wrong),
        last=wrong[-1].at.date(),
        mended=history[-1].given.right,
    )


def _right(answered: tuple[Answered, ...]) -> int:
    return sum(each.given.right for each in answered)
