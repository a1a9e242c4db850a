"""Each rule of the gate a second time, as a table: what holds a sound job back, and the nearest thing that does not."""

from typing import Any

import pytest

from domain.gate.assessment import Pack, Refusal, assess, count_codes, issue
from domain.gate.reason import Reason
from domain.inspection.observation import Code
from domain.job.job import Job
from domain.register.entries import Person
from tests.builders import AT, INSPECTOR, complete_report
from tests.domain.gate.changed import changed, place_of, sound, table

RULES = table("gate_rules")["rule"]
NEAR = [(rule, near) for rule in RULES for near in rule.get("near", ())]


def asked(job: Job, rule: dict[str, Any]) -> Pack | Refusal:
    people = tuple(Person.model_validate(each) for each in rule.get("people", ()))
    return issue(job, by=rule.get("by", INSPECTOR), at=AT, people=people)


def is_told(reason: Reason, row: dict[str, Any]) -> bool:
    """The reason is of the kind, at the place and in the words that a row gives, and has the id that scripts know, if it does."""
    if "begins" in row:
        worded = reason.says.startswith(row["begins"]) and len(reason.says) > len(row["begins"])
    else:
        worded = reason.says == row["says"]
    known = (str(reason.kind), reason.place, row.get("id", reason.id))
    return worded and known == (row["kind"], place_of(row["at"]), reason.id)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule["holds"])
def test_what_a_rule_holds_is_refused_and_told_with_its_place(rule: dict[str, Any]) -> None:
    answer = asked(changed(sound(rule["job"]), rule), rule)
    assert isinstance(answer, Refusal)
    assert len(answer.reasons) == len(rule["because"]), answer.reasons
    for reason, row in zip(answer.reasons, rule["because"], strict=True):
        assert is_told(reason, row), (reason, row)


@pytest.mark.parametrize(("rule", "near"), NEAR, ids=[f"{rule['holds']} | {near['passes']}" for rule, near in NEAR])
def test_the_nearest_change_that_is_sound_is_not_held(rule: dict[str, Any], near: dict[str, Any]) -> None:
    answer = asked(changed(sound(near.get("job", rule["job"])), near), near)
    assert isinstance(answer, Pack), answer


def test_codes_are_counted_one_by_one_and_those_that_nobody_gave_are_none() -> None:
    job = complete_report(Code.C3, Code.C1, Code.C3)
    assert count_codes(job) == {Code.C1: 1, Code.C2: 0, Code.C3: 2, Code.FI: 0}


@pytest.mark.parametrize(
    ("mark", "outcome"),
    [("C1", "unsatisfactory"), ("C2", "unsatisfactory"), ("FI", "unsatisfactory"), ("C3", "satisfactory")],
)
def test_a_report_comes_out_by_its_observations_and_by_the_marks_of_its_items(mark: str, outcome: str) -> None:
    for change in (
        {"do": [{"do": "observe", "finding": "Rust", "code": mark}]},
        {"document": {"inspection/4.3/mark": mark}},
    ):
        assert assess(changed(sound("report"), change)).outcome == outcome


def test_a_certificate_complies_once_nothing_holds_it_and_says_nothing_before() -> None:
    assert assess(changed(sound("certificate"), {})).outcome == "complies"
    assert assess(sound("certificate")).outcome is None
    assert assess(changed(sound("report"), {"sign": False})).outcome == "satisfactory"


def test_a_pack_bears_who_issued_it_when_and_after_which_head_of_the_log() -> None:
    pack = issue(changed(sound("report"), {}), by=INSPECTOR, at=AT, people=(), head="ab12")
    assert isinstance(pack, Pack)
    stamp = pack.job.issued
    assert stamp is not None
    assert (stamp.at, stamp.by, stamp.head, pack.outcome) == (AT, INSPECTOR, "ab12", "satisfactory")
    unheaded = issue(changed(sound("report"), {}), by=INSPECTOR, at=AT, people=())
    assert isinstance(unheaded, Pack)
    assert unheaded.job.issued is not None
    assert unheaded.job.issued.head == ""
