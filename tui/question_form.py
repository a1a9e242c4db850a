"""Where a person is among the questions about a job; pure, so that going back loses nothing."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Self

from domain.forms.choice.answers import Answers, Dates
from domain.forms.choice.choosing import FormChoice, choose
from domain.forms.choice.question import Question, further_questions, questions
from domain.forms.form_set import FormSet


def form_question(answers: Answers) -> Question | None:
    """The next question that decides the papers."""
    return _advice_on(answers).ask


def before_any_answer() -> FormChoice:
    """What the rules lead to while nothing is answered, without reading them: the first screen shows it, and they take a while."""
    return FormChoice(
        ask=questions()[0], leads_to=tuple(each for each in FormSet if each.profile.is_advised), may_need_none=True
    )


def _advice_on(answers: Answers) -> FormChoice:
    return before_any_answer() if answers == Answers() else choose(answers)


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
        return cls(questions()[:1])

    @classmethod
    def on_what_is_owed(cls, known: Answers, following: Callable[[Answers], Question | None]) -> Self:
        """At the first question on what else is owed that has no answer yet; those before it can be gone back to."""
        given = known.model_copy(update={question.id: None for question in further_questions()})
        first = following(given)
        return cls((first,) if first else (), known, given, following, first is None).forward()

    @property
    def question(self) -> Question:
        """The one open now."""
        return self.asked[-1]

    @property
    def advice(self) -> FormChoice:
        """What the answers before the open question lead to."""
        return _advice_on(self.before)

    @property
    def before(self) -> Answers:
        """The answers to the questions before the open one."""
        return self._confirmed(self.asked[:-1])

    def answered(self, key: str) -> tuple[Self, FormChoice] | None:
        """The next question or the end of them, and the advice; None for a key that gives no answer."""
        kept = self.question.answered(key, self.kept)
        if kept is None:
            return None
        after = replace(self, kept=kept)._gone_on()
        return after, choose(after.answers) if after.is_done else after.advice

    def back(self) -> Self | None:
        """The question before, its answer kept; None at the first."""
        return replace(self, asked=self.asked[:-1], is_done=False) if len(self.asked) > 1 else None

    def reopened(self) -> Self:
        """The last question open again, once all had been answered."""
        return replace(self, is_done=False)

    def forward(self) -> Self:
        """On past every question whose answer is kept, to the first that has none."""
        at = self
        while not at.is_done and getattr(at.kept, at.question.id) not in {None, ""}:
            at = at._gone_on()
        return at

    def with_given(self, facts: Mapping[str, object]) -> Self:
        """The same place among the questions, with other facts known beside them."""
        return replace(self, given=self.given.model_copy(update=facts), kept=self.kept.model_copy(update=facts))

    @property
    def answers(self) -> Answers:
        """The answers to the questions put, the open one with them."""
        return self._confirmed(self.asked)

    @property
    def settled(self) -> Answers:
        """The answers of before that still apply, wherever among them the person is."""
        at = self.forward()
        return at.answers if at.is_done else at.before

    @property
    def further(self) -> Mapping[str, object]:
        """Whatever was ever answered on what else is owed, and the days."""
        names = (*(question.id for question in further_questions()), *Dates.model_fields)
        return {name: getattr(self.kept, name) for name in names}

    @property
    def key_given(self) -> str:
        """The key of the answer given to the open question earlier; "" when it is new."""
        given = getattr(self.kept, self.question.id)
        return next((answer.key for answer in self.question.answers if answer.value == given), "")

    @property
    def so_far(self) -> tuple[tuple[str, str], ...]:
        """Each question before the open one, with the words of its answer, in the order they were put."""
        return tuple((question.words, question.words_for(self.kept)) for question in self.asked[:-1])

    def _gone_on(self) -> Self:
        following = self.following(self.answers)
        if following is None:
            return replace(self, is_done=True)
        return replace(self, asked=(*self.asked, following), is_done=False)

    def _confirmed(self, asked: tuple[Question, ...]) -> Answers:
        return Answers.model_validate(
            dict(self.given) | {question.id: getattr(self.kept, question.id) for question in asked}
        )
