"""Ways through the questions, on papers and on what is owed: each ends in reasons, and none asks what is settled."""

from hypothesis import given
from hypothesis import strategies as st

from domain.duties.duty import duties
from domain.duties.facts import facts_of
from domain.duties.owing import Owing, owing
from domain.forms.choice.answers import Answers
from domain.forms.choice.choosing import FormChoice, choose
from domain.forms.choice.question import Question
from tests.examples import examples

LONGEST = 13
SETTLED = {
    ("building", "not-dwelling"): {"tenure"},
    ("tenure", "owner"): {"scope", "hmo"},
    ("done", "inspection"): {"room", "building", "intake", "registered", "scope", "own_work", "circuits", "fitted"},
    ("own_work", False): {"wanted", "registered", "building", "room", "circuits", "fitted", "after_report"},
    ("other", "emergency-lighting-check"): {"wanted", "room", "building", "mains", "own_work"},
    ("scope", "new-build"): {"room", "circuits"},
    ("fitted", "none"): {"demand_over", "source_over"},
    ("fitted", "pv"): {"demand_over"},
    ("fitted", "generator"): {"demand_over", "source_over"},
    ("fitted", "heat-pump"): {"source_over"},
    ("nation", "Scotland"): {"room", "registered", "intake"},
    ("nation", "Northern Ireland"): {"room", "building", "registered", "intake", "scope"},
    ("replaced", "accessory"): {"own_work", "circuits", "room", "building"},
    ("done", "new-circuit"): {"circuits", "room", "intake"},
    ("done", "board"): {"circuits", "room", "intake", "scope"},
}
"""What an answer settles for good, so that nobody is asked it any more."""


def advised_and_owed(answers: Answers) -> tuple[FormChoice, Owing]:
    advice = choose(answers)
    return advice, owing(answers, advice)


def tells(answers: Answers) -> object:
    """Where the answers lead: the papers, what is owed, and which rows of the tables can still come to hold."""
    advice, found = advised_and_owed(answers)
    facts = facts_of(answers, advice.form_set)
    owed = tuple((each.duty.id, each.duty.what, each.duty.clock) for each in found.owed)
    rows = tuple((row.id, missing) for row in duties() if (missing := row.left_open(facts)) is not None)
    return (advice.why, advice.ask and advice.ask.id, advice.leads_to, owed, rows)


@examples(0.6)
@given(st.data())
def test_a_way_through_the_questions_ends_in_reasons_and_asks_nothing_that_is_settled(data: st.DataObject) -> None:
    answers, asked = Answers(), list[str]()
    while question := _next(answers):
        asked.append(question.id)
        after = [question.answered(each.key, answers) or Answers() for each in question.answers]
        assert len({tells(each) for each in after}) > 1, f"{question.id} changes nothing after {answers!r}"
        answers = data.draw(st.sampled_from(after))
        for given_answer, never in SETTLED.items():
            if getattr(answers, given_answer[0]) == given_answer[1]:
                assert never.isdisjoint(asked[asked.index(given_answer[0]) :])
    assert len(asked) == len(set(asked)) <= LONGEST
    advice, found = advised_and_owed(answers)
    assert advice.why
    assert advice.boundary
    assert all(each.duty.source.cited for each in found.owed)


def _next(answers: Answers) -> Question | None:
    advice, found = advised_and_owed(answers)
    return advice.ask or found.ask
