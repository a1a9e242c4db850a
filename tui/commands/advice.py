"""The advice on papers, and what else is owed, for scripts and for people."""

from collections.abc import Iterator

from domain.dates import written
from domain.duties.duty import DutyKind
from domain.duties.owing import Owed, Owing
from domain.forms.choice.choosing import FormChoice
from domain.forms.choice.paper import Paper
from domain.forms.choice.question import AllowedAnswer, Question
from domain.forms.choice.rule import Contested
from tui.commands.output import as_json


def question_as_value(question: Question) -> dict[str, object]:
    """A question, for scripts."""
    return {
        "id": question.id,
        "words": question.words,
        "help": question.help,
        "answers": [{"value": answer.value, "words": answer.words} for answer in question.answers],
    }


def question_as_text(question: Question) -> str:
    """A question, for people."""
    width = max(12, *(len(as_json(answer.value)) for answer in question.answers))
    answers = (f"  {as_json(answer.value):{width}}  {answer.words}" for answer in question.answers)
    return "\n".join([f"{question.id}: {question.words}", *answers])


Ahead = tuple[tuple[AllowedAnswer, FormChoice], ...]
"""Each answer to the open question, and what it would come to."""


def advice_as_value(advice: FormChoice, owing: Owing, ahead: Ahead) -> dict[str, object]:
    """The advice, for scripts."""
    return {
        "form_set": advice.form_set.value if advice.form_set else None,
        "decided": advice.is_decided,
        "forms": [_paper(paper) for paper in advice.papers],
        "instead": [_paper(paper) for paper in advice.instead],
        "none_required": advice.is_decided and advice.form_set is None,
        "advisable": advice.starts.value if advice.advisable and advice.starts else None,
        "must_not_go_ahead": advice.stop,
        "why": advice.why,
        "why_not": {form_set.value: reason for form_set, reason in advice.against.items()},
        "reasons": [each for each in (advice.why, *advice.against.values(), advice.boundary) if each],
        "also_accepted": [form_set.value for form_set in advice.also],
        "contested": _contested(advice.contested),
        "boundary": advice.boundary,
        "signatures": advice.signatures,
        "pack": list(advice.pack),
        "cautions": list(advice.cautions),
        "source": advice.source.cited if advice.source else None,
        "ask": question_as_value(advice.ask) if advice.ask else None,
        "if_answered": [_ahead(answer, then) for answer, then in ahead],
        "leads_to": [form_set.value for form_set in advice.leads_to],
        "notification": next((_notification(each) for each in owing.owed if each.duty.verdict), None),
        "owed": [owed_as_value(each) for each in owing.owed],
        "clocks": [owed_as_value(each) for each in owing.clocks],
        "ask_further": question_as_value(owing.ask) if owing.ask else None,
    }


def _ahead(answer: AllowedAnswer, then: FormChoice) -> dict[str, object]:
    return {
        "value": answer.value,
        "decided": then.is_decided,
        "form_set": then.form_set.value if then.form_set else None,
        "must_not_go_ahead": then.stop,
        "why": then.why,
        "ask": then.ask.id if then.ask else None,
    }


def owed_as_value(owed: Owed) -> dict[str, object]:
    """One thing owed, for scripts."""
    duty, due = owed.duty, owed.due
    return {
        "id": duty.id,
        "kind": duty.kind.value,
        "who": duty.who,
        "what": duty.what,
        "why": duty.why,
        "route": duty.route,
        "time": duty.clock.says if duty.clock else "",
        "by": due.by.isoformat() if due else None,
        "other_reading": due.other_reading.isoformat() if due and due.other_reading else None,
        "counted": due.counted if due else "",
        "contested": _contested(duty.contested),
        "source": duty.source.cited,
    }


def _notification(owed: Owed) -> dict[str, object]:
    duty = owed.duty
    assert duty.verdict
    return {"notify": duty.verdict.value, "what": duty.what, "why": duty.why, "route": duty.route}


def _paper(paper: Paper) -> dict[str, object]:
    return {
        "form_set": paper.form_set.value if paper.form_set else None,
        "count": paper.count,
        "called": paper.called,
    }


def _contested(contested: Contested | None) -> dict[str, object] | None:
    return contested.model_dump(mode="json") if contested else None


def advice_as_text(advice: FormChoice, owing: Owing, ahead: Ahead) -> str:
    """The advice, for people; while a question is open, where each answer leads."""
    if advice.ask:
        width = max(12, *(len(as_json(answer.value)) for answer in advice.ask.answers))
        led = (f"  {as_json(answer.value):{width}}  {_ahead_in_words(then)}" for answer, then in ahead)
        return "\n".join(["One more answer is needed.", question_as_text(advice.ask), "If answered so:", *led])
    return "\n".join([*_papers_in_words(advice), *_owed_in_words(owing)])


def _ahead_in_words(then: FormChoice) -> str:
    if then.ask:
        return f"then asks {then.ask.id}"
    if then.stop:
        return "the work must not go ahead as it stands"
    return then.form_set.profile.title if then.form_set else "no form set of BS 7671"


def _papers_in_words(advice: FormChoice) -> Iterator[str]:
    if advice.stop:
        yield "✗ The work must not go ahead as it stands"
    if advice.form_set is None:
        yield "No form set of BS 7671 is required"
    for paper in advice.papers:
        yield f"{paper.count} × {paper.called}" if paper.count > 1 else paper.called
    yield advice.why
    for form_set, reason in advice.against.items():
        yield f"{'Or' if form_set in advice.also else 'Not'} the {form_set.profile.title}: {reason}"
    yield advice.boundary
    if advice.contested:
        first, second = advice.contested.practices
        yield f"Contested, {advice.contested.about}: some {first}; others {second}. {advice.contested.cautious}"
    if advice.signatures:
        yield f"Signatures: {advice.signatures}"
    yield from (f"! {caution}" for caution in advice.cautions)
    if advice.source:
        yield f"Source: {advice.source.cited}"


def _owed_in_words(owing: Owing) -> Iterator[str]:
    if owing.owed:
        yield "\nWhat else is owed"
    for owed in owing.owed:
        duty = owed.duty
        verdict = f"{duty.verdict}: " if duty.verdict and duty.kind is DutyKind.NOTIFICATION else ""
        who = "" if duty.who == "you" else f", {duty.who}"
        yield f"- {duty.kind}{who}: {verdict}{duty.what}"
        if duty.route:
            yield f"    {duty.route}"
        if duty.clock:
            yield f"    {due_in_words(owed)}"
        yield f"    {duty.source.cited}"
    if owing.ask:
        yield f"\nOne answer more tells more of it.\n{question_as_text(owing.ask)}"


def due_in_words(owed: Owed) -> str:
    """The day a thing is due, with the other way of counting it."""
    if owed.due is None:
        return f"Time: {owed.duty.clock.says}" if owed.duty.clock else ""
    other = f" (counted otherwise, {written(owed.due.other_reading)})" if owed.due.other_reading else ""
    return f"By {written(owed.due.by)}{other}: {owed.due.counted}"
