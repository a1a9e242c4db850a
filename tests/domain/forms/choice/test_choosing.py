"""The choice of a form set: decided, or asked on, with reasons either way."""

from collections.abc import Iterator
from itertools import product
from typing import Any

import pytest
from pydantic import ValidationError

from domain.duties.owing import owing
from domain.forms.choice.answers import Answers, Done
from domain.forms.choice.choosing import choose
from domain.forms.choice.question import questions
from domain.forms.choice.rule import rules, rules_in
from domain.forms.form_set import FormSet
from tests.domain.forms.choice.other_doors import other_doors
from tests.domain.forms.choice.told import answers_of, cases

CASES = cases("choice")
SITUATIONS = [(case, door) for case in cases("situations") for door in case["doors"]]
EVERY_ANSWER = [
    Answers(done=done, circuits=circuits, own_work=own_work)
    for done, circuits, own_work in product((None, *Done), (None, 0, 1, 2, 3, 10_000), (None, True, False, "part"))
]
TOLD = [
    told
    for told in (*(answers_of(case) for case in CASES), *(Answers.model_validate(door) for _, door in SITUATIONS))
    if any(other_doors(told))
]
LONGEST = 5
NOTHING = Answers()


def every_way(answers: Answers = NOTHING) -> Iterator[Answers]:
    """The answers at the end of every way through the questions."""
    question = choose(answers).ask
    if question is None:
        yield answers
        return
    for each in question.answers:
        after = question.answered(each.key, answers)
        assert after
        yield from every_way(after)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["job"])
def test_a_job_ends_in_its_papers(case: dict[str, Any]) -> None:
    advice = choose(answers_of(case))
    assert (advice.form_set or "none") == case["form_set"]
    assert set(advice.also) == set(case.get("also", ()))
    assert set(FormSet) - {advice.form_set, advice.beside, *advice.also} == set(case["never"])
    assert case.get("because", "").casefold() in advice.why.casefold()
    assert (advice.contested is not None) == case.get("contested", False)
    assert advice.stop == case.get("stop", False)
    assert ("signed apart, each" in advice.signatures and "may sign" not in advice.signatures) == case.get(
        "signed_apart", False
    )
    called = [f"{paper.count} {paper.form_set}" for paper in advice.papers if paper.form_set]
    assert called == case.get("papers", called)
    assert case.get("beside", "") in " ".join(paper.called for paper in advice.papers if not paper.form_set)


@pytest.mark.parametrize(("case", "door"), SITUATIONS, ids=[f"{case['job']}: {door}" for case, door in SITUATIONS])
def test_whichever_door_is_taken_the_same_papers_come_out(case: dict[str, Any], door: dict[str, Any]) -> None:
    answers = Answers.model_validate(door)
    advice = choose(answers)
    assert advice.is_decided, f"{advice.ask} is left open"
    assert [f"{paper.count} {paper.form_set}" for paper in advice.papers if paper.form_set] == case["papers"]
    assert set(advice.also) == set(case.get("also", ()))
    assert case.get("beside", "") in " ".join(paper.called for paper in advice.papers if not paper.form_set)
    assert advice.stop == case.get("stop", False)
    assert case["source"]
    assert set(case.get("owed", ())) <= {each.duty.id for each in owing(answers, advice).owed}


@pytest.mark.parametrize("told", TOLD, ids=lambda told: told.model_dump_json(exclude_none=True))
def test_every_case_ends_in_the_same_papers_through_every_other_door(told: Answers) -> None:
    first = choose(told)
    for answers in other_doors(told):
        advice = choose(answers)
        assert advice.papers == first.papers
        assert (advice.form_set, advice.also, advice.stop) == (first.form_set, first.also, first.stop)
        assert (advice.contested is None) == (first.contested is None)
        assert advice.signatures == first.signatures


def test_several_circuits_are_one_certificate_or_one_minor_works_each() -> None:
    advice = choose(Answers(done=Done.ALTERATION, own_work=True, circuits=5))
    assert [(paper.form_set, paper.count) for paper in advice.papers] == [(FormSet.EIC, 1)]
    assert [(paper.form_set, paper.count) for paper in advice.instead] == [(FormSet.MEIWC, 5)]
    assert advice.contested
    assert "Electrical Installation Certificate" in advice.contested.cautious


def test_every_paper_says_who_signs_and_what_goes_with_it() -> None:
    for answers in every_way():
        advice = choose(answers)
        assert bool(advice.signatures) == (advice.form_set is not None)
        assert advice.form_set is None or advice.form_set.profile.title in advice.pack[0]


@pytest.mark.parametrize("answers", EVERY_ANSWER, ids=lambda answers: answers.model_dump_json(exclude_none=True))
def test_any_answers_give_advice_with_reasons_or_the_next_question(answers: Answers) -> None:
    advice = choose(answers)
    if advice.ask:
        assert advice.form_set is None
        assert getattr(answers, advice.ask.id) is None
        assert advice.leads_to or advice.may_need_none
        return
    assert advice.leads_to == ((advice.form_set,) if advice.form_set else ())
    assert set(advice.against) == set(FormSet) - {advice.form_set}
    assert all((advice.why, advice.boundary, *advice.against.values()))
    assert advice.source
    assert advice.source.cited


@pytest.mark.parametrize("answers", EVERY_ANSWER, ids=lambda answers: answers.model_dump_json(exclude_none=True))
def test_answering_what_is_asked_ends_in_advice_within_five_answers(answers: Answers) -> None:
    asked: list[str] = []
    while question := choose(answers).ask:
        asked.append(question.id)
        answers = question.answered(question.answers[0].key, answers) or pytest.fail(f"{question.id} takes no answer")
    assert len(asked) == len(set(asked)) <= LONGEST


def test_an_inspection_is_asked_nothing_more() -> None:
    assert choose(Answers(done=Done.INSPECTION)).form_set is FormSet.EICR


def test_a_new_circuit_is_not_asked_how_many_others_were_touched() -> None:
    asked = choose(Answers(done=Done.NEW_CIRCUIT)).ask
    assert asked
    assert asked.id == "own_work"
    assert choose(Answers(done=Done.NEW_CIRCUIT, own_work=True)).form_set is FormSet.EIC


def test_before_the_first_answer_all_three_form_sets_are_possible() -> None:
    assert set(choose(Answers()).leads_to) == set(FormSet)


def test_every_question_is_asked_of_somebody_and_every_rule_decides_for_somebody() -> None:
    ends = list(every_way())
    answered = {name for answers in ends for name, given in answers if given is not None}
    assert answered == {question.id for question in questions()}
    told = [*(answers_of(case) for case in CASES), *(Answers.model_validate(door) for _, door in SITUATIONS)]
    assert {choose(answers).why for answers in (*ends, *told)} == {rule.why for rule in rules()}


def test_a_key_that_gives_no_answer_changes_nothing() -> None:
    first = questions()[0]
    assert first.answered("~", Answers()) is None
    assert first.answered("i", Answers()) == Answers(done=Done.INSPECTION)


RULE = """
[[rule]]
id = "shed"
when.done.one_of = ["alteration"]
form_set = "MEIWC"
why = "A shed."
against.EIC = "No."
against.EICR = "No."
boundary = "A barn."
source = { standard = "BS 7671", trust = "memory" }
"""


def test_a_case_is_added_without_code() -> None:
    assert choose(Answers(done=Done.ALTERATION), rules_in(RULE)).form_set is FormSet.MEIWC


@pytest.mark.parametrize(
    ("spoiled", "complaint"),
    [
        (RULE.replace("when.done", "when.colour"), "colour"),
        (RULE.replace('against.EIC = "No."', ""), "why each of the other"),
        (RULE.replace('source = { standard = "BS 7671", trust = "memory" }', ""), "source"),
        (RULE.replace('why = "A shed."', ""), "why"),
    ],
)
def test_a_rule_without_its_reasons_or_source_is_refused(spoiled: str, complaint: str) -> None:
    with pytest.raises(ValidationError, match=complaint):
        rules_in(spoiled)


@pytest.mark.parametrize("given", [{"circuits": -1}, {"circuits": True}, {"own_work": 1}, {"done": "nothing"}])
def test_an_answer_that_means_nothing_is_refused(given: dict[str, object]) -> None:
    with pytest.raises(ValidationError):
        Answers.model_validate(given)
