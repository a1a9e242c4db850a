"""Where a person is among the questions about a job; pure, so that going back loses nothing."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Self

from domain.choice.answers import Answers
from domain.choice.choosing import FormChoice, choose
from domain.choice.question import Question, questions


def form_question(answers: Answers) -> Question | None:
    """The next question that decides the papers."""
    return choose(answers).ask


@dataclass(frozen=True, slots=True)
class Asking:
    """The questions put so far, the last one open until all are answered, and every answer ever given."""

    asked: tuple[Question, ...]
    kept: Answers = field(default_factory=Answers)
    given: Answers = field(default_factory=Answers)
    """What was known before the first question."""
    following: Callable[[Answers], Question | None] = form_question
    is_done: bool = False

    @classmethod
    def begun(cls) -> Self:
        """Before the first answer on the papers."""
        return cls((form_question(Answers()) or questions()[0],))

    @classmethod
    def on_what_is_owed(
        cls, known: Answers, following: Callable[[Answers], Question | None], *, nation_assumed: bool = False
    ) -> Self:
        """Before the first answer on what else is owed; done at once where nothing is left to ask.

        A nation that was only assumed stands as an answer given here, so that one question back changes it.
        """
        given = known.model_copy(update={"nation": None}) if nation_assumed else known
        first = following(given)
        begun = cls((first,) if first else (), known, given, following, first is None)
        assumed = begun.answered(begun.key_given) if first and first.id == "nation" and nation_assumed else None
        return assumed[0] if assumed else begun

    @property
    def question(self) -> Question:
        """The one open now."""
        return self.asked[-1]

    @property
    def advice(self) -> FormChoice:
        """What the answers before the open question lead to."""
        return choose(self.before)

    @property
    def before(self) -> Answers:
        """The answers to the questions before the open one."""
        return self._confirmed(self.asked[:-1])

    def answered(self, key: str) -> tuple[Self, FormChoice] | None:
        """The next question or the end of them, and the advice; None for a key that gives no answer."""
        kept = self.question.answered(key, self.kept)
        if kept is None:
            return None
        after = replace(self, kept=kept, is_done=False)
        following = self.following(after.answers)
        after = replace(after, asked=(*self.asked, following)) if following else replace(after, is_done=True)
        return after, choose(after.answers) if after.is_done else after.advice

    def back(self) -> Self | None:
        """The question before, its answer kept; None at the first."""
        return replace(self, asked=self.asked[:-1], is_done=False) if len(self.asked) > 1 else None

    def with_given(self, facts: Mapping[str, object]) -> Self:
        """The same place among the questions, with other facts known beside them."""
        return replace(self, given=self.given.model_copy(update=facts), kept=self.kept.model_copy(update=facts))

    def reopened(self) -> Self:
        """The last question open again, once all had been answered."""
        return replace(self, is_done=False)

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
        """Each question before the open one, with the words of its answer, in the order they were put."""
        return tuple((question.words, question.words_for(self.kept)) for question in self.asked[:-1])

    def _confirmed(self, asked: tuple[Question, ...]) -> Answers:
        return Answers.model_validate(
            dict(self.given) | {question.id: getattr(self.kept, question.id) for question in asked}
        )
