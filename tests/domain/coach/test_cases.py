"""Every practice case is whole, and the rules give the answer it gives."""

from collections import Counter

import pytest
from pydantic import ValidationError

from domain.coach.case import Case, CaseKind, cases, cases_in
from domain.coach.orders import orders
from tests.domain.coach.proofs import right_by_the_rules

EVERY = cases()


@pytest.mark.parametrize("case", EVERY, ids=lambda case: case.id)
def test_the_rules_bear_out_the_answer_of_a_case_and_no_other(case: Case) -> None:
    right = right_by_the_rules(case)
    if case.proof.get("wrong"):
        assert right == {case.right}
    else:
        assert right == {case.right, *case.also}


@pytest.mark.parametrize("kind", list(CaseKind))
def test_a_wrong_answer_called_right_is_found_out(kind: CaseKind) -> None:
    case = next(case for case in EVERY if case.kind is kind and not case.also)
    for meaning in case.answers.keys() - {case.right}:
        assert right_by_the_rules(case.model_copy(update={"right": meaning})) == {case.right} != {meaning}


def test_there_are_eight_cases_of_every_kind_and_ninety_in_all() -> None:
    counted = Counter(case.kind for case in EVERY)
    assert min(counted[kind] for kind in CaseKind) >= 8
    assert len(EVERY) >= 90


def test_where_an_answer_stands_does_not_give_it_away() -> None:
    for kind in CaseKind:
        of_kind = [case for case in EVERY if case.kind is kind]
        places = Counter(list(case.answers).index(case.right) for case in of_kind)
        assert max(places.values()) <= len(of_kind) * 2 / 3, (kind, places)


@pytest.mark.parametrize("case", EVERY, ids=lambda case: case.id)
def test_a_case_tells_a_story_and_gives_its_reason_and_rule(case: Case) -> None:
    for text in (case.told, case.ask, case.why, *case.answers.values()):
        assert text == text.strip() != ""
    assert case.ask.endswith("?")
    assert case.source.cited
    assert len(set(case.answers.values())) == len(case.answers)


def test_twelve_finished_papers_have_three_faults_each_and_are_sound_but_for_them() -> None:
    papers = [case for case in EVERY if case.kind is CaseKind.FAULTS]
    assert len(papers) >= 12
    for case in papers:
        assert all(len(meaning.split()) == 3 for meaning in case.answers), case.id
        assert set(case.right.split()) == case.proof["typed"].keys(), case.id
        sound = case.model_copy(update={"proof": {"form": case.proof["form"]}})
        assert right_by_the_rules(sound) == set(), case.id


def test_what_can_hurt_carries_its_caution() -> None:
    for case in EVERY:
        if case.kind in {CaseKind.ORDER, CaseKind.ISOLATION, CaseKind.READING, CaseKind.CODE, CaseKind.FAULTS}:
            assert case.caution


def test_a_case_without_its_right_answer_is_refused() -> None:
    with pytest.raises(ValidationError, match="does not offer"):
        cases_in(
            'kind = "CODE"\n[source]\nstandard = "x"\ntrust = "memory"\n[[case]]\nid = "a"\ntold = "t"\nask = "q?"\n'
            'right = "C1"\nwhy = "w"\nanswers = { C2 = "C2", C3 = "C3" }\nproof = {}\n'
        )


@pytest.mark.parametrize("name", ["tests", "isolation"])
def test_an_ordered_list_names_its_source_and_no_step_twice(name: str) -> None:
    order = orders()[name]
    assert order.source.seen_in
    assert len({step.id for step in order.steps}) == len(order.steps)
    assert [order.at(step.id) for step in order.steps] == list(range(len(order.steps)))
