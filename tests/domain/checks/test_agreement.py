"""Marks of the inspection against the rest of the record; the whole jobs stand in tests/cases/whole_jobs_agreement.toml."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.checks import CHECKS, findings_of
from domain.checks.whole_paper.agreement import CONDITIONS, agreement, agreement_in, agreement_rules
from domain.editing.commands import Explain, SetOutcome
from domain.edition import Edition
from domain.forms.form_set import FormSet
from domain.gate.assessment import assess
from domain.inspection.checklist import checklist_for, items_for
from domain.inspection.item_outcome import InspectionOutcome
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from tests.builders import ON, complete_certificate, complete_minor_works, complete_report, done, entered, signed
from tests.domain.checks.installations import INSPECTED, job_of, judged, told
from tests.examples import examples

PASS, NOT_APPLICABLE = InspectionOutcome.PASS, InspectionOutcome.NOT_APPLICABLE
CASES = told("whole_jobs_agreement.toml", "case")
EITHER = {PASS, NOT_APPLICABLE}
CAN_STAND = dict.fromkeys(["5", "10", "12"], EITHER) | {
    "2": {NOT_APPLICABLE},
    "14": {NOT_APPLICABLE},
    **{item: {PASS} for item in ("3", "4", "6", "7", "8", "9", "11")},
}
"""The marks that can stand on the made certificate, with its two RCBOs, no bathroom and no other source; 1 and 13 are asked about."""


def contradictions_on(job: Job) -> list[Finding]:
    return [each for each in findings_of(job) if each.check == "agreement"]


def marked(job: Job, marks: dict[str, InspectionOutcome]) -> Job:
    return done(job, *(SetOutcome(item=item, mark=mark, note="As seen") for item, mark in marks.items()))


@examples(0.3)
@given(st.fixed_dictionaries(dict.fromkeys(map(str, range(1, 15)), st.sampled_from([PASS, NOT_APPLICABLE]))))
def test_no_certificate_leaves_with_a_mark_that_its_record_denies(marks: dict[str, InspectionOutcome]) -> None:
    job = signed(marked(complete_certificate(sign=False), marks))
    denied = {item for item, can in CAN_STAND.items() if marks[item] not in can}
    if all(mark is NOT_APPLICABLE for mark in marks.values()):
        assert [each.case for each in contradictions_on(job)] == ["all-n-a"]
        return
    fails = {each.place.item for each in contradictions_on(job) if each.severity is Severity.FAILS}
    assert fails == denied
    assert assess(job).may_issue is (not denied and marks["1"] is PASS)


@examples(0.3)
@given(
    st.sets(st.sampled_from([each.number for each in items_for(FormSet.EICR, Edition.A2)]), min_size=1, max_size=6),
    st.sampled_from([PASS, NOT_APPLICABLE]),
)
def test_a_report_leaves_with_random_marks_only_where_nothing_denies_them(
    items: set[str], mark: InspectionOutcome
) -> None:
    job = signed(marked(complete_report(sign=False), dict.fromkeys(items, mark)))
    holding = [each for each in contradictions_on(job) if each.severity is not Severity.NOTE]
    assert {each.place.item for each in holding} <= items
    assert assess(job).may_issue is not bool(holding)


def test_a_complete_job_agrees_with_itself() -> None:
    for job in (complete_certificate(), complete_report(), complete_minor_works()):
        assert contradictions_on(job) == []


def test_the_cases_are_many_and_those_called_sound_stay_silent() -> None:
    sound = [case for case in CASES if case["job"].startswith("Sound: ")]
    assert len(CASES) - len(sound) >= 60
    assert len(sound) >= 15
    assert not any(case.get("finds") for case in sound)
    assert len({case["job"] for case in CASES}) == len(CASES)


def test_every_rule_denies_a_mark_in_a_case_and_every_condition_is_asked() -> None:
    said = {each.case for case in CASES for each in judged(case)[1] if each.check == "agreement"}
    rules = agreement_rules().rule
    assert {rule.case for rule in rules} | {"all-n-a"} == said
    assert {name for rule in rules for name in rule.when} == set(CONDITIONS)


def test_every_item_of_a_rule_stands_on_its_list() -> None:
    for rule in agreement_rules().rule:
        for form_set, checklist in ((FormSet.EIC, "initial"), (FormSet.EICR, "periodic")):
            for edition in (Edition.A2, Edition.A4):
                held = checklist_for(form_set, edition)
                listed = {each.number for each in held.items} if held else set[str]()
                assert set(rule.items(checklist)) | (set(rule.beside) if rule.items(checklist) else set()) <= listed


def test_what_a_rule_rests_on_is_a_check_or_a_finding_that_some_case_brings_about() -> None:
    cases = [*INSPECTED.values(), *CASES, *told("check_*.toml", "case")]
    ids = {name for case in cases for each in judged(case)[1] for name in (each.check, each.id)}
    assert {name.partition("@")[0] for rule in agreement_rules().rule for name in rule.found} - ids == UNSEEN


UNSEEN: set[str] = set()


def test_a_mark_of_a_report_that_is_neither_tick_nor_n_a_denies_nothing() -> None:
    job = complete_report(sign=False)
    for mark in (InspectionOutcome.LIMITATION, InspectionOutcome.NOT_VERIFIED):
        limited = marked(job, {each.number: mark for each in job.items})
        assert contradictions_on(limited) == []


def test_a_page_just_begun_is_not_taken_for_one_of_nothing_but_n_a() -> None:
    job = complete_certificate(sign=False)
    begun = job.model_copy(update={"inspection": job.inspection[1:2]})
    assert begun.inspection[0].mark is NOT_APPLICABLE
    assert contradictions_on(begun) == []


def test_a_question_that_a_person_answered_denies_no_mark_any_more() -> None:
    job = entered(complete_report(sign=False), {"rating": "50"}, board="b1", circuit="c2")
    assert {each.place.item for each in contradictions_on(job)} == {"5.5", "5.6"}
    asked = [each for each in findings_of(job) if each.check == "overload"]
    why: dict[str, Any] = {"reason": "Two runs in parallel", "by": "Tamsin Orchard", "on": ON}
    answered = done(job, *(Explain.of(each, **why) for each in asked))
    assert contradictions_on(answered) == []


def test_what_fails_on_a_certificate_is_not_said_a_second_time_of_its_item() -> None:
    insulation = {"ir_live": "0.2"}
    certificate = entered(complete_certificate(sign=False), insulation, board="b1", circuit="c2")
    report = entered(complete_report(sign=False), insulation, board="b1", circuit="c2")
    assert contradictions_on(certificate) == []
    assert [each.case for each in contradictions_on(report)] == ["insulation-fails"]


def test_a_contradiction_is_another_one_when_the_record_behind_it_changes() -> None:
    job = marked(complete_report(sign=False), {"4.10": NOT_APPLICABLE})
    job = entered(job, {"use": "workshop"}, section="premises")
    (before,) = contradictions_on(job)
    fewer = entered(job, {"rcd_standard": "N/A"}, board="b1", circuit="c2")
    after = next(each for each in contradictions_on(fewer) if each.case == before.case)
    assert before.severity is Severity.ASK
    assert before.typed != after.typed


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ('when = ["a full moon"]', "no condition"),
        ("", "rests on"),
        ('when = ["an RCD"]\nfound = ["overload"]', "rests on"),
        ('when = ["an RCD"]\nmarks = ["C1"]', "marks"),
    ],
)
def test_a_row_that_cannot_be_meant_is_refused(row: str, says: str) -> None:
    source = 'edition = "A2"\n[source]\nstandard = "own"\ntrust = "memory"\n'
    with pytest.raises(ValueError, match=says):
        agreement_in(f'{source}[[rule]]\ninitial = ["3"]\nmark = "N/A"\ncase = "x"\n{row}\n')


def test_many_circuits_are_counted_and_not_all_named() -> None:
    job = marked(job_of({"inspected": "house reported"}), {})
    job = job.model_copy(
        update={
            "inspection": tuple(
                each.model_copy(update={"mark": NOT_APPLICABLE}) if each.item == "4.18" else each
                for each in job.inspection
            )
        }
    )
    (finding,) = contradictions_on(job)
    assert "CU 1, CU 2, CU 3, CU 4 and 3 more" in finding.says


def test_a_paper_without_an_inspection_is_asked_nothing() -> None:
    job = complete_minor_works()
    assert [*agreement(job, tuple(found for check in CHECKS for found in check(job)))] == []
