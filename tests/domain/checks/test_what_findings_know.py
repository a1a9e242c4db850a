"""Where findings stand, and by what answers to them are known: both are kept in logs and must not change with the code."""

import tomllib
from pathlib import Path

from domain.checks import findings_of
from domain.job.finding import Severity
from domain.job.place_in_words import box_at
from tests.domain.checks.test_catalogue import found, jobs

RECORDED = Path(__file__).parents[2] / "cases" / "questions_known_by.toml"


def test_every_finding_of_the_cases_stands_at_boxes_that_there_are() -> None:
    nowhere = {
        (finding.id, str(place))
        for job in jobs()
        for finding in findings_of(job)
        for place in finding.places
        if place.box and box_at(job, place) is None
    }
    assert nowhere == set()


def test_an_answered_question_stays_answered_since_it_is_known_by_the_same_boxes_as_ever() -> None:
    """A reason given in an older log is held against what was typed, name by name: another name, and it falls."""
    recorded = tomllib.loads(RECORDED.read_text(encoding="utf-8"))["known_by"]
    known: dict[str, set[tuple[str, ...]]] = {}
    for _, finding in found():
        if finding.severity is Severity.ASK:
            known.setdefault(finding.id, set()).add(tuple(sorted(finding.typed)))
    ways = {name: {tuple(each) for each in ways} for name, ways in recorded.items()}
    assert {name: each - known.get(name, set()) for name, each in ways.items() if each - known.get(name, set())} == {}
