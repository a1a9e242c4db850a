"""Practice brings more of what went wrong, spaced by Leitner's boxes, and tells a supervisor how it stands."""

from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.coach.answered import Answered, answered_in, given_to
from domain.coach.case import Case, CaseKind, cases
from domain.coach.leitner import RESTS, box_after, due_on
from domain.coach.practice import APART, next_case, next_day
from domain.coach.sitting import Sitting
from domain.coach.summary import summary_of
from domain.coach.summary_text import LINES, WIDTH, summary_text
from tests.domain.coach.histories import BEGUN, answer, answers
from tests.examples import examples

EVERY = cases()
FIRST = EVERY[0]
TODAY = BEGUN.date()


@pytest.mark.parametrize(
    ("letters", "box"), [("", 0), ("r", 1), ("rr", 2), ("w", 0), ("rrrw", 0), ("rrwr", 1), ("rrrrrrr", len(RESTS) - 1)]
)
def test_a_right_answer_moves_a_case_one_box_up_and_a_wrong_one_back_to_the_first(letters: str, box: int) -> None:
    assert box_after(answers(FIRST, letters)) == box


@pytest.mark.parametrize(("letters", "days"), [("w", 0), ("r", 1), ("rr", 3), ("rrr", 7), ("rrrr", 21), ("rrrrr", 21)])
def test_the_higher_the_box_the_longer_a_case_rests(letters: str, days: int) -> None:
    assert due_on(answers(FIRST, letters)) == TODAY + timedelta(days=days)


def test_a_case_never_asked_is_not_waited_for() -> None:
    assert due_on(()) is None


def play(letters: str) -> list[Case]:
    """The cases asked on one day when they are answered so."""
    asked: list[Case] = []
    history: tuple[Answered, ...] = ()
    for letter in letters:
        case = next_case(EVERY, history, TODAY)
        assert case is not None
        asked.append(case)
        history = (*history, answer(case, letter))
    return asked


def test_somebody_who_knows_it_all_meets_every_kind_in_turn() -> None:
    asked = play("r" * 2 * len(CaseKind))
    assert {case.kind for case in asked} == set(CaseKind)


def test_after_a_wrong_answer_more_of_its_kind_comes_and_then_the_case_itself() -> None:
    asked = play("rrrw" + "r" * 6)
    wrong = asked[3]
    assert not asked[4].after
    assert [case.kind for case in asked[4 : 4 + APART]] == [wrong.kind] * APART
    assert wrong not in asked[4 : 4 + APART]
    assert wrong in asked[4 + APART :]


@pytest.mark.parametrize("letter", ["r", "w"])
def test_a_visit_is_gone_through_question_by_question_from_its_first(letter: str) -> None:
    asked = play(letter * 20)
    for at, case in enumerate(asked):
        follows = next((each for each in EVERY if each.after == case.id), None)
        if follows and case not in asked[:at] and at + 1 < len(asked):
            assert asked[at + 1] == follows
        assert not case.after or case.after in [each.id for each in asked[:at]]


def test_when_all_is_right_nothing_is_left_for_the_day_and_more_comes_on_the_next() -> None:
    history = tuple(answer(case, "r") for case in EVERY)
    assert next_case(EVERY, history, TODAY) is None
    assert next_day(history) == TODAY + timedelta(days=1)
    assert next_case(EVERY, history, TODAY + timedelta(days=1)) is not None


@examples(0.5)
@given(st.text("rw", max_size=60))
def test_no_case_comes_again_before_three_others(letters: str) -> None:
    asked = play(letters)
    for at, case in enumerate(asked):
        assert case not in asked[max(at - APART, 0) : at]


def test_an_answer_is_read_back_as_it_was_kept_and_what_cannot_be_read_is_passed_over() -> None:
    held = given_to(FIRST, FIRST.right)
    assert answered_in(held.model_dump_json(), BEGUN) == Answered(given=held, at=BEGUN)
    assert answered_in('{"case": 3}', BEGUN) is None
    assert answered_in("not JSON", BEGUN) is None


def test_an_answer_accepted_in_practice_counts_as_right() -> None:
    case = next(case for case in EVERY if case.also)
    assert given_to(case, case.also[0]).right


def test_the_summary_counts_by_kind_and_by_day_and_says_what_goes_wrong() -> None:
    second = next(case for case in EVERY if case.kind is CaseKind.ISOLATION)
    history = (answer(FIRST, "w"), answer(FIRST, "r", minute=5), answer(second, "w", day=1), answer(second, "w", day=2))
    summary = summary_of("Ann Teasel", history, EVERY, TODAY + timedelta(days=2))
    lines = {line.kind: line for line in summary.kinds}
    assert (summary.answers, summary.right, summary.days_in_all) == (4, 1, 3)
    assert (lines[FIRST.kind].answers, lines[FIRST.kind].right, lines[FIRST.kind].met) == (2, 1, 1)
    assert (lines[CaseKind.ISOLATION].answers, lines[CaseKind.ISOLATION].right) == (2, 0)
    assert [day.answers for day in summary.days] == [1, 1, 2]
    assert [(line.case, line.times, line.mended) for line in summary.wrong] == [
        (second.id, 2, False),
        (FIRST.id, 1, True),
    ]
    text = summary_text(summary)
    assert "Ann Teasel" in text
    assert "not an assessment of competence" in text
    assert "Practise next: safe isolation (1 wrong when last asked" in " ".join(text.split())
    assert second.right_words[:30] in text
    assert "4 March 2026" in text


def test_answers_to_cases_that_are_gone_are_left_out() -> None:
    gone = FIRST.model_copy(update={"id": "gone"})
    assert summary_of("Ann", (answer(gone, "w"),), EVERY, TODAY).answers == 0


@pytest.mark.parametrize("letter", ["r", "w"])
def test_the_summary_fits_one_page_however_much_was_answered(letter: str) -> None:
    history = tuple(answer(case, letter, day=at) for at, case in enumerate(EVERY))
    lines = summary_text(summary_of("N" * 200, history, EVERY, TODAY)).splitlines()
    assert len(lines) <= LINES
    assert max(map(len, lines)) <= WIDTH


def test_somebody_who_has_not_begun_has_a_summary_too() -> None:
    assert "0 answers on 0 days" in summary_text(summary_of("Ann", (), EVERY, TODAY))


def test_one_of_six_right_is_seventeen_in_a_hundred() -> None:
    text = summary_text(summary_of("Ann", answers(FIRST, "rwwwww"), EVERY, TODAY))
    assert "1 right (17 %)" in text
    assert "16 %" not in text


@pytest.mark.parametrize("case", EVERY, ids=lambda case: case.id)
def test_a_case_that_comes_again_has_its_answers_in_another_order_and_the_key_gives_what_stands_there(
    case: Case,
) -> None:
    first = Sitting(who="Ann", answered=(), case=case)
    again = Sitting(who="Ann", answered=answers(case, "w"), case=case)
    assert first.offered == tuple(case.answers)
    assert again.offered != first.offered
    assert sorted(again.offered) == sorted(first.offered)
    for number, meaning in enumerate(again.offered, 1):
        chosen = again.answering(str(number))
        assert chosen is not None
        assert chosen.answer == meaning
        assert again.with_answer(chosen, BEGUN).offered == again.offered
