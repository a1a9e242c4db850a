"""Where a person is among the questions that decide the form set; pure, so that going back loses nothing."""

from dataclasses import dataclass, field, replace
from typing import Self

from domain.choice.answers import Answers
from domain.choice.choosing import FormChoice, choose
from domain.choice.question import Question, questions


@dataclass(frozen=True, slots=True)
class Asking:
    """The questions put so far, the last one open, and every answer ever given."""

    asked: tuple[Question, ...]
    kept: Answers = field(default_factory=Answers)

    @classmethod
    def begun(cls) -> Self:
        """Before the first answer."""
        return cls((choose(Answers()).ask or questions()[0],))

    @property
    def question(self) -> Question:
        """The one open now."""
        return self.asked[-1]

    @property
    def advice(self) -> FormChoice:
        """What the answers before the open question lead to."""
        return choose(self._confirmed(self.asked[:-1]))

    def answered(self, key: str) -> tuple[Self, FormChoice] | None:
        """The next question or the decision; None for a key that gives no answer."""
        kept = self.question.answered(key, self.kept)
        if kept is None:
            return None
        after = replace(self, kept=kept)
        advice = choose(after.answers)
        return (replace(after, asked=(*self.asked, advice.ask)), advice) if advice.ask else (after, advice)

    def back(self) -> Self | None:
        """The question before, its answer kept; None at the first."""
        return replace(self, asked=self.asked[:-1]) if len(self.asked) > 1 else None

    @property
    def answers(self) -> Answers:
        """The answers to the questions put, the open one with them."""
        return self._confirmed(self.asked)

    @property
    def key_given(self) -> str:
        """The key of the answer given to the open question earlier; "" when it is new."""
        given = getattr(self.kept, self.question.id)
        return next((answer.key for answer in self.question.answers if answer.value == given), "")

    @property
    def so_far(self) -> tuple[tuple[str, str], ...]:
        """Each question before the open one, with the words of its answer."""
        return in_words(self._confirmed(self.asked[:-1]))

    def _confirmed(self, asked: tuple[Question, ...]) -> Answers:
        return Answers.model_validate({question.id: getattr(self.kept, question.id) for question in asked})


def in_words(answers: Answers) -> tuple[tuple[str, str], ...]:
    """Every question that was answered, with the words of its answer, in the order they are asked."""
    return tuple(
        (question.words, answer.words)
        for question in questions()
        for answer in question.answers
        if getattr(answers, question.id) == answer.value
    )
