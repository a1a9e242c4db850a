"""Inspection items whose subject the rest of the record denies, so that one key marks them N/A; faults are never among them."""

from domain.checks.whole_paper.not_there import not_there
from domain.editing.commands import SetOutcome
from domain.inspection.item_outcome import InspectionOutcome
from tests.builders import done, entered
from tests.domain.checks.installations import INSTALLATIONS, job_of


def test_without_a_source_and_an_electrode_their_items_are_not_there() -> None:
    job = job_of(INSTALLATIONS["maisonette"])
    assert [each.number for each in not_there(job)] == ["2.0", "3.2", "4.11", "4.21", "4.22", "8"]
    marked = done(job, SetOutcome(item="8", mark=InspectionOutcome.NOT_APPLICABLE))
    assert "8" not in [each.number for each in not_there(marked)]
    on_a_rod = entered(job, {"means": "both"}, section="earthing")
    assert "3.2" not in [each.number for each in not_there(on_a_rod)]


def test_what_is_missing_is_a_fault_and_stays_open() -> None:
    assert [each.number for each in not_there(job_of(INSTALLATIONS["old flat"]))] == ["3.2"]
