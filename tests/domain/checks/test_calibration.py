"""Readings taken with an instrument out of date. That an instrument is calibrated in set intervals is common practice."""

import pytest

from domain.checks.whole_paper.calibration import calibration
from domain.gate.assessment import assess
from domain.gate.reason import ReasonKind
from domain.job.finding import Severity
from domain.job.job import Job
from tests.builders import complete_certificate, complete_minor_works, entered


def due(job: Job, **boxes: str) -> Job:
    return entered(job, boxes, section="instruments")


@pytest.mark.parametrize(("day", "asked"), [("01/03/2026", True), ("02/03/2026", False), ("03/03/2026", False)])
def test_an_instrument_is_good_to_the_day_it_is_due(day: str, asked: bool) -> None:
    found = list(calibration(due(complete_certificate(), multifunction_due=day)))
    assert bool(found) is asked
    assert all(each.severity is Severity.ASK and each.place.box == "multifunction_due" for each in found)


def test_the_last_day_of_testing_counts() -> None:
    job = due(complete_certificate(), multifunction_due="04/03/2026")
    later = entered(job, {"tested_on": "05/03/2026"}, board="b1")
    assert list(calibration(job)) == []
    assert [each.limit for each in calibration(later)] == ["used on 5 March 2026"]


@pytest.mark.parametrize("boxes", [{}, {"loop_due": "01/03/2020"}, {"multifunction_due": "N/A"}])
def test_nothing_is_asked_of_an_instrument_without_a_number_or_a_date(boxes: dict[str, str]) -> None:
    assert list(calibration(due(complete_minor_works(), **boxes))) == []


def test_each_instrument_out_of_date_holds_the_paper_back_until_it_is_explained() -> None:
    job = due(complete_minor_works(), multifunction_due="01/01/2026", rcd="RT-7", rcd_due="01/02/2026")
    questions = [reason for reason in assess(job).reasons if reason.kind is ReasonKind.QUESTION]
    assert [reason.place.box for reason in questions] == ["multifunction_due", "rcd_due"]
    assert "RT-7" in questions[1].says
