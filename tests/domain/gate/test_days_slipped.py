"""Each two days of a paper slipped against each other by one day, to both sides, as the table of cases has them."""

import tomllib
from datetime import UTC, date, datetime, time, timedelta
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from domain.checks import findings_of
from domain.checks.whole_paper.order_of_days import day_rules
from domain.forms.form_set import FormSet
from domain.gate.days import days_after_issue, signed_out_of_turn
from domain.job.days_told import DayName, days_told
from domain.job.finding import Severity
from domain.job.job import Job, fingerprint
from domain.job.signature import Role, Signature
from tests.builders import INSPECTOR, ON, complete_certificate, complete_minor_works, complete_report

CASES = Path(__file__).parents[2] / "cases" / "days_slipped.toml"
PAIRS: list[dict[str, Any]] = tomllib.loads(CASES.read_text(encoding="utf-8"))["pair"]
DAY, FAR, NOON = timedelta(days=1), timedelta(days=90), time(12, tzinfo=UTC)
BOXES = {
    "design": ("work", "designed_on"),
    "start": ("work", "started_on"),
    "completion": ("work", "completed_on"),
    "first day of inspection": ("report", "inspected_from"),
    "last day of inspection": ("report", "inspected_on"),
    "earlier report": ("premises", "last_inspection"),
    "calibration": ("instruments", "multifunction_due"),
}
ACTS = {"signature", "authorisation", "issue"}
MAKERS = {"EIC": complete_certificate, "MEIWC": complete_minor_works, "EICR": complete_report}


@cache
def without_days(form_set: str) -> dict[str, Any]:
    """A complete job, unsigned, its instrument named and none of its days told."""
    made = MAKERS[form_set](sign=False).model_dump()
    for section, box in (*BOXES.values(), ("work", "next_inspection"), ("report", "next_inspection")):
        made[section] = made[section] | {box: ""}
    made["instruments"] |= {"multifunction": "MFT 20417"}
    made["boards"] = [board | {"tested_on": ""} for board in made["boards"]]
    return made


def with_days(form_set: str, days: dict[str, date]) -> Job:
    made = dict(without_days(form_set))
    for name, day in days.items():
        typed = day.strftime("%d/%m/%Y")
        if name == "test":
            made["boards"] = [board | {"tested_on": typed} for board in made["boards"]]
        elif name == "next inspection":
            section = "report" if form_set == "EICR" else "work"
            made[section] = made[section] | {"next_inspection": typed}
        elif name in BOXES:
            section, box = BOXES[name]
            made[section] = made[section] | {box: typed}
    return Job.model_validate(made)


def said_of(form_set: str, days: dict[str, date]) -> str:
    """The gravest that is said of the days told."""
    job = with_days(form_set, days)
    signed = {role: days.get("signature") for role in job.roles}
    if Role.AUTHORISED in signed:
        signed[Role.AUTHORISED] = days.get("authorisation", days.get("signature"))
    now = fingerprint(job)
    signatures = [
        Signature(role=role, name=INSPECTOR, at=datetime.combine(day, NOON), fingerprint=now)
        for role, day in signed.items()
        if day
    ]
    job = job.model_copy(update={"signatures": tuple(signatures)})
    issued = datetime.combine(days.get("issue", ON + FAR), NOON)
    if [*signed_out_of_turn(job), *days_after_issue(job, issued)]:
        return "held"
    found = {each.severity for each in findings_of(job) if each.check in {"days", "calibration"}}
    return "fails" if Severity.FAILS in found else "asks" if Severity.ASK in found else ""


@pytest.mark.parametrize("pair", PAIRS, ids=lambda pair: f"{pair['form_set']} {pair['first']} {pair['then']}")
def test_two_days_stand_in_order_and_a_day_of_slip_is_said(pair: dict[str, Any]) -> None:
    first, then = pair["first"], pair["then"]
    said = [said_of(pair["form_set"], {first: ON + away, then: ON}) for away in (-DAY, timedelta(), DAY)]
    assert said == ["", pair.get("same", ""), pair["slipped"]]


@pytest.mark.parametrize("form_set", FormSet, ids=str)
def test_no_two_days_that_a_rule_or_the_gate_holds_against_each_other_are_left_out(form_set: FormSet) -> None:
    listed = {(pair["first"], pair["then"]) for pair in PAIRS if pair["form_set"] == form_set}
    days = dict.fromkeys(("design", "start", "completion", "test", *BOXES), ON) | {"next inspection": ON + DAY}
    told = {str(each.name) for each in days_told(with_days(str(form_set), days))} - {DayName.NEXT}
    by_rule = {(str(rule.earlier), str(rule.later)) for rule in day_rules(str(form_set))}
    assert by_rule | {(each, act) for each in told for act in ("signature", "issue")} <= listed
