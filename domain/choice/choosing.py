"""Which form set the answers lead to, and why; or the question that is still needed."""

from collections.abc import Mapping

from domain.choice.answers import Answers
from domain.choice.question import Question, questions
from domain.choice.rule import Rule, rules
from domain.form_set import FormSet
from domain.limits.source import Source
from domain.value import Value


class FormChoice(Value):
    """The advice. While a question is open, `ask` holds it and `form_set` is None."""

    form_set: FormSet | None = None
    why: str = ""
    against: Mapping[FormSet, str] = {}
    """Each of the other form sets, and why it is not advised."""
    also: tuple[FormSet, ...] = ()
    """Form sets that are accepted too, where practice differs."""
    boundary: str = ""
    """What would have to be different for another form set."""
    cautions: tuple[str, ...] = ()
    source: Source | None = None
    ask: Question | None = None
    leads_to: tuple[FormSet, ...]
    """Every form set the answers so far still allow, in the order of the table."""


def choose(answers: Answers, table: tuple[Rule, ...] | None = None) -> FormChoice:
    """The first rule that holds decides; where a rule before it hangs on a missing answer, that is asked first."""
    possible = [
        (rule, missing)
        for rule in (rules() if table is None else table)
        if (missing := rule.left_open(answers)) is not None
    ]
    if not possible:
        raise LookupError(f"no rule covers {answers!r}")
    rule, missing = possible[0]
    if missing:
        ask = next(question for question in questions() if question.id in missing)
        return FormChoice(ask=ask, leads_to=tuple(dict.fromkeys(rule.form_set for rule, _ in possible)))
    return FormChoice(
        form_set=rule.form_set,
        why=rule.why,
        against=rule.against,
        also=rule.also,
        boundary=rule.boundary,
        cautions=rule.cautions,
        source=rule.source,
        leads_to=(rule.form_set,),
    )
