"""What else is owed, to whom, and by which day."""

from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.duties.counting import last_day
from domain.duties.duty import DutyKind, duties
from domain.duties.owing import Owing, owing
from domain.edition import Edition
from domain.figures.limits.intervals import premises, rented_homes_in
from domain.forms.choice.answers import Answers, Dates, Done
from domain.forms.choice.choosing import choose
from domain.forms.choice.question import further_questions, questions
from tests.domain.forms.choice.told import answers_of, cases

NATIONS = ("England", "Wales", "Scotland", "Northern Ireland")
FACTS = [question for question in (*questions(), *further_questions()) if question.id != "kind"]


def owed_for(answers: Answers) -> Owing:
    return owing(answers, choose(answers))


def verdict(answers: Answers) -> str | None:
    return next((each.duty.verdict.value for each in owed_for(answers).owed if each.duty.verdict), None)


NOTIFIED = [(case, nation) for case in cases("choice") for nation in case.get("notify", ())]


@pytest.mark.parametrize(("case", "nation"), NOTIFIED, ids=[f"{case['job']}: {nation}" for case, nation in NOTIFIED])
def test_building_control_is_told_where_the_nation_asks_it(case: dict[str, Any], nation: str) -> None:
    answers = Answers.model_validate(dict(answers_of(case)) | {"nation": nation})
    assert verdict(answers) == case["notify"][nation]


@pytest.mark.parametrize("case", [case for case in cases("choice") if "owed" in case], ids=lambda case: case["job"])
def test_a_job_owes_more_than_its_papers(case: dict[str, Any]) -> None:
    assert set(case["owed"]) <= {each.duty.id for each in owed_for(answers_of(case)).owed}


@pytest.mark.parametrize("case", cases("duties"), ids=lambda case: case["job"])
def test_each_thing_is_due_on_its_day(case: dict[str, Any]) -> None:
    found = owed_for(answers_of(case))
    due = {each.duty.id: each.due for each in found.owed if each.due}
    assert {name: day.by for name, day in due.items() if name in case["due"]} == case["due"]
    other = {name: day.other_reading for name, day in due.items() if name in case["due"] and day.other_reading}
    assert other == case.get("otherwise", {})
    assert {each.duty.id for each in found.owed}.isdisjoint(case.get("never", ()))
    assert [each.due.by for each in found.clocks if each.due] == sorted(day.by for day in due.values())


@given(st.fixed_dictionaries({question.id: st.sampled_from([None, *question.answers]) for question in FACTS}))
def test_nothing_is_asked_twice_and_every_way_of_asking_ends(given: dict[str, Any]) -> None:
    answers = Answers.model_validate({name: answer.value for name, answer in given.items() if answer})
    asked: list[str] = []
    while question := choose(answers).ask or owed_for(answers).ask:
        assert getattr(answers, question.id) is None
        asked.append(question.id)
        answers = question.answered(question.answers[-1].key, answers) or pytest.fail("no answer")
    assert len(asked) == len(set(asked))
    assert verdict(answers) is not None


@pytest.mark.parametrize(
    ("keys", "asked"),
    [
        ({"done": "a", "room": "e"}, ["nation", "room", "fitted", "system", "after_report"]),
        ({"done": "i"}, ["nation", "tenure", "wanted", "current_report"]),
        ({"done": "r", "replaced": "a"}, []),
        ({"done": "n", "nation": "n", "scope": "c"}, ["nation", "fitted", "system", "after_report"]),
    ],
)
def test_only_what_can_still_change_something_is_asked(keys: dict[str, str], asked: list[str]) -> None:
    answers, further = Answers(), []
    while question := choose(answers).ask or owed_for(answers).ask:
        if choose(answers).is_decided:
            further.append(question.id)
        key = keys.get(question.id, question.answers[0].key)
        answers = question.answered(key, answers) or pytest.fail(f"{question.id} takes no {key}")
    assert further == asked


def test_the_kinds_of_premises_asked_about_are_those_of_the_table() -> None:
    kinds = next(question for question in further_questions() if question.id == "kind")
    assert {answer.value for answer in kinds.answers} <= set(premises(Edition.A2))


@pytest.mark.parametrize("nation", NATIONS)
def test_the_clocks_of_rented_homes_agree_with_the_table_of_intervals(nation: str) -> None:
    law = rented_homes_in(nation, Edition.A2)
    assert law
    answers = Answers.model_validate({"done": "inspection", "nation": nation, "tenure": "private-let"})
    clocks = {each.duty.id: each.duty.clock for each in owed_for(answers).owed if each.duty.clock}
    longest = clocks[f"{nation.casefold()}, next report"]
    assert longest
    assert longest.years == law.figures["years"].value
    if nation == "England":
        for name, column in {
            "copy to tenants": "copy_to_tenant",
            "copy to the council": "copy_to_council",
            "remedial work": "remedy_within",
        }.items():
            clock = clocks[f"england, {name}"]
            assert clock
            assert clock.days == law.figures[column].value


def test_no_two_rows_share_a_name_and_each_names_its_source() -> None:
    ids = [duty.id for duty in duties()]
    assert len(set(ids)) == len(ids)
    assert all(duty.source.standard and duty.what for duty in duties())
    assert all(
        duty.clock is None or duty.clock.before or duty.clock.last or duty.clock.start in Dates.model_fields
        for duty in duties()
    )


def test_a_way_of_notifying_is_told_only_where_there_is_something_to_notify() -> None:
    base = {"done": Done.BOARD, "own_work": True, "nation": "England", "registered": "no"}
    kinds = {
        building: {each.duty.kind for each in owed_for(Answers.model_validate(base | {"building": building})).owed}
        for building in ("house", "not-dwelling")
    }
    assert DutyKind.ROUTE in kinds["house"]
    assert DutyKind.ROUTE not in kinds["not-dwelling"]


@given(st.dates(date(2000, 1, 1), date(2090, 1, 1)), st.integers(1, 400))
def test_starting_with_a_day_ends_a_day_sooner_than_of_it(start: date, days: int) -> None:
    assert last_day(start, days=days) - start == timedelta(days=days)
    assert last_day(start, days=days, count="starting with") == last_day(start, days=days) - timedelta(days=1)


@given(st.dates(date(2000, 1, 1), date(2090, 1, 1)), st.integers(0, 120))
def test_months_end_on_the_same_day_or_the_last_of_the_month(start: date, months: int) -> None:
    end = last_day(start, months=months)
    assert (end.year * 12 + end.month) - (start.year * 12 + start.month) == months
    assert end.day == start.day or (end.day < start.day and (end + timedelta(days=1)).day == 1)
