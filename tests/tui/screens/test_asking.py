"""Answers taken back and changed, before anything is drawn."""

from domain.forms.choice.answers import Answers, Done
from domain.forms.choice.choosing import choose
from domain.forms.form_set import FormSet
from tui.question_form import Asking, before_any_answer


def test_a_changed_answer_asks_again_only_what_it_opens() -> None:
    asking = Asking.begun()
    for key in "ay":
        answered = asking.answered(key)
        assert answered is not None
        asking = answered[0]
    back = asking.back()
    assert back is not None
    first = back.back()
    assert first is not None
    assert first.key_given == "a"
    changed = first.answered("i")
    assert changed is not None
    assert changed[1].form_set is FormSet.EICR
    assert changed[0].answers == Answers(done=Done.INSPECTION)


def test_a_key_that_is_no_answer_changes_nothing() -> None:
    assert Asking.begun().answered("z") is None


def test_the_first_screen_says_what_the_rules_say_of_no_answer() -> None:
    said, by_the_rules = before_any_answer(), choose(Answers())
    assert {*said.leads_to} == {*by_the_rules.leads_to}
    assert said.model_copy(update={"leads_to": by_the_rules.leads_to}) == by_the_rules
