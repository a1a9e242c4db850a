"""The earlier visits to a place, from either log."""

from datetime import timedelta

import pytest

from domain.editing.commands import Sign
from domain.forms.form_set import FormSet
from domain.gate.issued_paper import IssuedPaper
from domain.log.job_log import JobLog
from domain.log.last_time.history import history_of, last_time, linking
from domain.log.last_time.notes import MatchNote, topic_of
from domain.place import Place
from tests.builders import AT, INSPECTOR, complete_certificate, complete_report, entered, fresh
from tests.storage.issuing import WHO, bind

ZS = Place(section="boards", board="b1", circuit="c2", box="zs")


def issued_on(log: JobLog, year: int, job, *, zs: str = "0.49") -> str:
    """A paper of the second of March of a year."""
    section, box = ("report", "inspected_on") if job.form_set.profile.states_a_condition else ("work", "completed_on")
    job = entered(job, {box: f"02/03/{year}"}, section=section)
    if job.profile.has_schedules:
        job = entered(job, {"tested_on": f"02/03/{year}"}, board="b1")
    job = entered(job, {"zs": zs}, board="b1", circuit="c2")
    at = AT.replace(year=year)
    number = log.create(job, who=WHO, at=at).number
    for role in job.roles:
        log.edit(number, Sign(role=role, name=INSPECTOR, at=at), who=WHO, at=at)
    issued = log.issue(number, by=WHO, at=at + timedelta(hours=1), bind=bind)
    assert isinstance(issued, IssuedPaper), issued
    return number


@pytest.fixture
def visits(log: JobLog) -> tuple[str, str]:
    return (
        issued_on(log, 2024, complete_certificate(sign=False), zs="0.44"),
        issued_on(log, 2025, complete_report(sign=False), zs="0.47"),
    )


def test_the_newest_visit_comes_first_and_drafts_and_other_places_are_none(log, visits):
    elsewhere = entered(complete_report(sign=False), {"address": "9 Larkspur Court"}, section="premises")
    issued_on(log, 2025, elsewhere)
    log.create(complete_report(), who=WHO, at=AT)
    now = log.create(complete_report(), who=WHO, at=AT)
    assert [visit.number for visit in history_of(log, now).visits] == list(reversed(visits))
    assert last_time(log, now).reading(now, ZS).shown == "0.47"


def test_a_later_paper_and_a_replaced_one_are_not_the_last_time(log, visits):
    first, second = (log.load(number) for number in visits)
    assert [visit.number for visit in history_of(log, second).visits] == [first.number]
    assert last_time(log, first) is None
    correction = log.replace(first.number, because="a reading was misread", who=WHO, at=AT)
    for role in correction.roles:
        log.edit(correction.number, Sign(role=role, name=INSPECTOR, at=AT), who=WHO, at=AT)
    log.issue(correction.number, by=WHO, at=AT, bind=bind)
    now = log.create(complete_report(), who=WHO, at=AT)
    assert {visit.number for visit in history_of(log, now).visits} == {second.number, correction.number}


def test_a_place_without_an_address_has_no_last_time(log, visits):
    assert last_time(log, log.create(fresh(FormSet.EICR), who=WHO, at=AT)) is None


def test_a_paper_linked_by_hand_is_laid_beside_and_a_draft_cannot_be(log, visits):
    now = log.create(fresh(FormSet.EICR), who=WHO, at=AT)
    note = linking(log, now, visits[0])
    assert isinstance(note, MatchNote)
    log.add_note(topic_of(now.number), note.model_dump_json(), who=WHO, at=AT)
    assert [visit.number for visit in history_of(log, now).visits] == [visits[0]]
    draft = log.create(complete_report(), who=WHO, at=AT).number
    assert "not been issued" in linking(log, now, draft)
    assert "no job" in linking(log, now, "A-0099")


def test_a_match_a_person_changed_holds_for_that_paper_alone(log, visits):
    now = log.create(complete_report(), who=WHO, at=AT)
    note = MatchNote(earlier=visits[1], circuit="c2", was="")
    log.add_note(topic_of(now.number), note.model_dump_json(), who=WHO, at=AT)
    log.add_note(topic_of(now.number), "not a note", who=WHO, at=AT)
    history = history_of(log, now)
    newest, older = (history.matches(now, visit) for visit in history.visits)
    assert (newest[0].was, newest[0].confirmed) == ("", True)
    assert (older[0].was, older[0].confirmed) == ("c2", False)
    assert last_time(log, now).reading(now, ZS) is None
