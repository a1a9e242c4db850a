"""A reason that stands at ten places is the reason of none of them: it was typed to be done with."""

import pytest

from domain.editing.commands import SetOutcome
from domain.gate.assessment import explanation_of
from domain.gate.gaps import gaps_of
from domain.inspection.item_outcome import InspectionOutcome
from domain.job.explanation import Explanation
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.place import Place
from tests.builders import INSPECTOR, ON, complete_report, done, entered

REPORT = entered(complete_report(sign=False), {"operational_limitations": "Loft boarded over"}, section="report")
ITEMS = [each.number for each in REPORT.items if each.number.startswith(("4.", "5."))]
LOCKED = "Cupboard locked"


def marked(mark: InspectionOutcome, items: list[str], note: str = LOCKED) -> Job:
    return done(REPORT, *(SetOutcome(item=each, mark=mark, note=note) for each in items))


def unreasoned(job: Job) -> list[str]:
    return [each.place.item for each in gaps_of(job) if each.kind == "mark-without-reason"]


def test_an_item_that_was_not_verified_has_no_reason_where_ten_have_the_same() -> None:
    assert unreasoned(marked(InspectionOutcome.NOT_VERIFIED, ITEMS[:10])) == ITEMS[:10]
    assert unreasoned(marked(InspectionOutcome.NOT_VERIFIED, ITEMS[:9])) == []


def test_the_same_words_beside_items_that_passed_do_not_count() -> None:
    passed = [SetOutcome(item=each, mark=InspectionOutcome.PASS, note=LOCKED) for each in ITEMS[1:12]]
    job = done(marked(InspectionOutcome.NOT_VERIFIED, ITEMS[:1]), *passed)
    assert unreasoned(job) == []
    assert unreasoned(done(job, SetOutcome(item=ITEMS[0], mark=InspectionOutcome.NOT_VERIFIED, note="ok"))) == ITEMS[:1]


@pytest.mark.parametrize(("count", "stands"), [(9, True), (10, False)])
def test_a_question_of_a_check_is_not_answered_by_what_answers_ten(count: int, stands: bool) -> None:
    places = [Place(section="boards", board="b1", circuit=f"c{each}", box="ir_live") for each in range(count)]
    given = [
        Explanation(check="insulation", case="low", place=each, reason="Wet", by=INSPECTOR, on=ON) for each in places
    ]
    asked = Finding(check="insulation", case="low", place=places[3], severity=Severity.ASK, says="low")
    found = explanation_of(REPORT.model_copy(update={"explanations": tuple(given)}), asked)
    assert found == (given[3] if stands else None)
