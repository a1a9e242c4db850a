"""Which papers the answers lead to, and why; or the question that is still needed."""

from collections.abc import Mapping

from domain.forms.choice.answers import Answers
from domain.forms.choice.beside import PaperBeside, papers_beside
from domain.forms.choice.condition import DERIVED, Facts
from domain.forms.choice.doors import facts_of_doors
from domain.forms.choice.paper import Paper, usual
from domain.forms.choice.question import AllowedAnswer, Question, questions
from domain.forms.choice.rule import ChoiceRule, Contested, rules
from domain.forms.form_set import FormSet
from domain.source import Source
from domain.value import Value


class FormChoice(Value):
    """The advice. While a question is open, `ask` holds it and nothing is decided."""

    form_set: FormSet | None = None
    """None with nothing left to ask: no form set of BS 7671 is required."""
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
    may_need_none: bool = False
    """The answers so far may also end without a form set."""
    beside: FormSet | None = None
    """A second form set that the same visit needs; it is a job of its own."""
    with_certificate: bool = False
    """Whatever is answered still, a certificate stands beside the report."""
    papers: tuple[Paper, ...] = ()
    instead: tuple[Paper, ...] = ()
    """The papers of the other accepted way."""
    advisable: bool = False
    """Nothing is required; the other accepted way is the cautious one."""
    stop: bool = False
    """The work must not go ahead as it stands."""
    signatures: str = ""
    pack: tuple[str, ...] = ()
    contested: Contested | None = None

    @property
    def is_decided(self) -> bool:
        """Nothing is left to ask."""
        return self.ask is None

    @property
    def starts(self) -> FormSet | None:
        """The form set a job starts with: the one required, else the one that is advisable."""
        return self.form_set or (self.also[0] if self.advisable else None)


def choose(answers: Answers, table: tuple[ChoiceRule, ...] | None = None) -> FormChoice:
    """The first rule that holds decides; where a rule before it hangs on a missing answer, that is asked first."""
    facts = facts_of_doors(answers)
    possible = [
        (rule, missing)
        for rule in (rules() if table is None else table)
        if (missing := rule.left_open(facts)) is not None
    ]
    if not possible:
        raise LookupError(f"no rule covers {answers!r}")
    rule, missing = next((rule, missing) for rule, missing in possible if not missing & DERIVED)
    if missing:
        return FormChoice(
            ask=next(question for question in questions() if question.id in missing),
            leads_to=tuple(dict.fromkeys(rule.form_set for rule, _ in possible if rule.form_set)),
            may_need_none=any(rule.form_set is None for rule, _ in possible),
            with_certificate=all(rule.with_form_set for rule, _ in possible),
        )
    return _decided(rule, answers, facts)


def choices_ahead(answers: Answers, advice: FormChoice) -> tuple[tuple[AllowedAnswer, FormChoice], ...]:
    """What each answer to the open question would come to, in the order of its answers; () once nothing is open."""
    if advice.ask is None:
        return ()
    given = ((each, advice.ask.answered(each.key, answers)) for each in advice.ask.answers)
    return tuple((each, choose(then)) for each, then in given if then)


def _decided(rule: ChoiceRule, answers: Answers, facts: Facts) -> FormChoice:
    form_set = rule.form_set
    always = usual()[form_set] if form_set else None
    beside = _beside(facts, form_set)
    called = (*rule.beside, *(each.called for each in beside))
    each_circuit = max(answers.circuits, 1) if isinstance(answers.circuits, int) else 1
    return FormChoice(
        form_set=form_set,
        why=rule.why,
        against=rule.against,
        also=rule.also,
        boundary=rule.boundary,
        cautions=(*(each.caution for each in beside if each.caution), *rule.cautions),
        source=rule.source,
        leads_to=(form_set,) if form_set else (),
        may_need_none=form_set is None,
        beside=rule.with_form_set,
        papers=(
            *(_papers(each, each_circuit) for each in (form_set, rule.with_form_set) if each),
            *(Paper(called=each) for each in called),
        ),
        instead=tuple(_papers(each, each_circuit) for each in rule.also),
        advisable=rule.advisable,
        stop=rule.stop,
        signatures="" if always is None else always.apart if rule.apart else always.signatures,
        pack=(*(always.pack if always else ()), *called, *rule.pack),
        contested=rule.contested,
    )


def _beside(facts: Facts, form_set: FormSet | None) -> tuple[PaperBeside, ...]:
    told = dict(facts) | {"form_set": form_set.value if form_set else "none"}
    return tuple(each for each in papers_beside() if each.left_open(told) == frozenset())


def _papers(form_set: FormSet, circuits: int) -> Paper:
    """Minor works is one for each circuit; the others cover all of them."""
    return Paper(
        form_set=form_set, called=form_set.profile.title, count=circuits if form_set.profile.covers_one_circuit else 1
    )
