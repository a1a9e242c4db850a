"""One person at practice: what they answered so far, the case before them, and what they have just said to it."""

from datetime import date, datetime
from hashlib import sha256
from typing import Self

from domain.coach.answered import Answered, GivenAnswer, given_to
from domain.coach.case import Case, cases
from domain.coach.leitner import due_on
from domain.coach.practice import by_case, next_case, next_day
from domain.value import Value


def shuffled(case: Case, times: int) -> tuple[str, ...]:
    """What the answers of a case mean, in an order of its own for each time it was asked before; as written the first time."""
    written = tuple(case.answers)
    if not times:
        return written
    order = tuple(sorted(written, key=lambda meaning: sha256(f"{case.id} {times} {meaning}".encode()).digest()))
    return order if order != written else (*written[1:], written[0])


class Sitting(Value):
    """Changed by copy. Every answer is the caller's to keep before it is shown."""

    who: str
    answered: tuple[Answered, ...]
    """Every answer ever kept of them, oldest first."""
    case: Case | None
    """None when nothing is left for the day."""
    given: GivenAnswer | None = None
    """What was just answered; None while the question is open."""

    @classmethod
    def begun(cls, who: str, answered: tuple[Answered, ...], on: date) -> Self:
        """At the case that is due first."""
        return cls(who=who, answered=answered, case=next_case(cases(), answered, on))

    @property
    def offered(self) -> tuple[str, ...]:
        """What the answers mean, in the order they stand in: as written at first, shuffled whenever the case comes again."""
        if self.case is None:
            return ()
        asked = sum(each.given.case == self.case.id for each in self.answered) - bool(self.given)
        return shuffled(self.case, asked)

    def answering(self, key: str) -> GivenAnswer | None:
        """The answer a key gives, counted from 1; None where it gives none or the question is closed."""
        if self.case is None or self.given or not key.isdecimal():
            return None
        meanings = self.offered
        at = int(key) - 1
        return given_to(self.case, meanings[at]) if 0 <= at < len(meanings) else None

    def with_answer(self, given: GivenAnswer, at: datetime) -> Self:
        """The question closed by this answer."""
        return self.model_copy(
            update={"given": given, "answered": (*self.answered, Answered(given=given, at=at))},
        )

    def going_on(self, on: date) -> Self:
        """At the next case."""
        return self.begun(self.who, self.answered, on)

    @property
    def comes_again(self) -> date | None:
        """The day on which the case before them is asked again."""
        return due_on(by_case(self.answered).get(self.case.id, ())) if self.case else next_day(self.answered)

    def progress(self, on: date) -> str:
        """How far they are, in one short line."""
        today = [each for each in self.answered if each.at.date() == on]
        right = sum(each.given.right for each in today)
        known = {case.id for case in cases()}
        met = len(known & {each.given.case for each in self.answered})
        return f"today {len(today)}, {right} right; {met} of {len(known)} cases met"
