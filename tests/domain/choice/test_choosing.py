"""The choice of a form set: decided, or asked on, with reasons either way."""

import tomllib
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from pydantic import ValidationError

from domain.choice.answers import Answers, Done
from domain.choice.choosing import choose
from domain.choice.question import questions
from domain.choice.rule import rules, rules_in
from domain.form_set import FormSet

CASES = [
    case
    for path in sorted((Path(__file__).parents[2] / "cases").glob("choice_*.toml"))
    for case in tomllib.loads(path.read_text(encoding="utf-8"))["case"]
]
EVERY_ANSWER = [
    Answers(done=done, circuits=circuits, own_work=own_work)
    for done, circuits, own_work in product((None, *Done), (None, 0, 1, 2, 3, 10_000), (None, True, False))
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["job"])
def test_a_job_ends_in_its_papers(case: dict[str, Any]) -> None:
    advice = choose(Answers.model_validate({name: case[name] for name in Answers.model_fields if name in case}))
    assert advice.form_set == case["form_set"]
    assert set(advice.also) == set(case.get("also", ()))
    assert set(FormSet) - {advice.form_set, *advice.also} == set(case["never"])
    assert case.get("because", "").casefold() in advice.why.casefold()


@pytest.mark.parametrize("answers", EVERY_ANSWER, ids=lambda answers: answers.model_dump_json(exclude_none=True))
def test_any_answers_give_advice_with_reasons_or_the_next_question(answers: Answers) -> None:
    advice = choose(answers)
    if advice.ask:
        assert advice.form_set is None
        assert getattr(answers, advice.ask.id) is None
        assert advice.leads_to
        return
    assert advice.form_set
    assert advice.leads_to == (advice.form_set,)
    assert set(advice.against) == set(FormSet) - {advice.form_set}
    assert all((advice.why, advice.boundary, *advice.against.values()))
    assert advice.source
    assert advice.source.cited


@pytest.mark.parametrize("answers", EVERY_ANSWER, ids=lambda answers: answers.model_dump_json(exclude_none=True))
def test_answering_what_is_asked_ends_in_advice_within_three_answers(answers: Answers) -> None:
    asked: list[str] = []
    while question := choose(answers).ask:
        asked.append(question.id)
        answers = question.answered(question.answers[0].key, answers) or pytest.fail(f"{question.id} takes no answer")
    assert len(asked) == len(set(asked)) <= 3


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
    advice = [choose(answers) for answers in EVERY_ANSWER]
    assert {each.ask.id for each in advice if each.ask} == {question.id for question in questions()}
    assert {each.why for each in advice if each.form_set} == {rule.why for rule in rules()}


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
