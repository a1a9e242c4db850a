"""What is due over a log: from the papers, from what was learnt later, less what has been done."""

from datetime import date
from pathlib import Path

import pytest

from domain.duties.noted import TOPIC, DutyNote, noted
from domain.duties.of_job import facts_in, owing_for
from domain.editing.commands import Choose, Enter, Sign
from domain.forms.choice.answers import Answers
from domain.gate.assessment import Pack
from domain.gate.issued_paper import IssuedPaper
from domain.inspection.observation import Code
from domain.job.job import Job
from domain.job.signature import roles_for
from domain.log.due_list import due_in, sections_of, untold_in
from domain.log.job_log import BoundPaper
from domain.place import Place
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, INSPECTOR, complete_certificate, complete_minor_works, complete_report, done, signed
from tests.storage.issuing import put_right_by_others

LET_IN_ENGLAND = Answers.model_validate({"done": "inspection", "nation": "England", "tenure": "private-let"})
BOARD_BY_A_MEMBER = Answers.model_validate(
    {"done": "board", "own_work": True, "nation": "England", "building": "house", "registered": "registered"}
)

INSPECTED_ON = Place(section="report", box="inspected_on")


@pytest.fixture
def log(tmp_path: Path) -> SqliteJobLog:
    return SqliteJobLog.open(tmp_path)


def answered(job: Job, answers: Answers) -> Job:
    return signed(done(job, Choose(chosen=job.chosen.model_copy(update={"answers": answers}))))


def kept(log: SqliteJobLog, job: Job, *, issue: bool = True) -> str:
    number = log.create(job, who=INSPECTOR, at=AT).number
    if issue:
        issued = log.issue(number, by=INSPECTOR, at=AT, bind=_bound)
        assert isinstance(issued, IssuedPaper), issued
    return number


def _bound(pack: Pack) -> BoundPaper:
    return BoundPaper(pdf=b"paper", pages=1)


def due_ids(log: SqliteJobLog) -> list[tuple[str, date]]:
    return [(line.owed.duty.id, line.by) for line in due_in(log)]


def test_an_issued_report_on_a_let_home_is_due_everywhere_soonest_first(log: SqliteJobLog) -> None:
    kept(log, answered(complete_report(Code.C2), LET_IN_ENGLAND))
    assert due_ids(log) == [
        ("england, remedial work", date(2026, 3, 29)),
        ("england, copy to tenants", date(2026, 3, 30)),
        ("england, next report", date(2031, 3, 2)),
        ("duplicate kept", date(2032, 3, 2)),
    ]


def test_a_satisfactory_report_asks_for_no_work(log: SqliteJobLog) -> None:
    kept(log, answered(complete_report(Code.C3), LET_IN_ENGLAND))
    assert "england, remedial work" not in dict(due_ids(log))


def test_notices_of_several_jobs_stand_in_the_order_of_their_days(log: SqliteJobLog) -> None:
    kept(log, answered(complete_certificate(), BOARD_BY_A_MEMBER))
    kept(log, answered(complete_report(), LET_IN_ENGLAND))
    days = [line.by for line in due_in(log)]
    assert days == sorted(days)
    assert ("notify as a registered firm", date(2026, 4, 1)) in due_ids(log)


def test_what_a_document_names_and_what_the_law_asks_is_one_next_inspection_the_sooner(log: SqliteJobLog) -> None:
    report = answered(complete_report(), LET_IN_ENGLAND)
    sooner = report.model_copy(update={"report": report.report.model_copy(update={"next_inspection": "1 year"})})
    for job, by in ((report, date(2031, 3, 2)), (sooner, date(2027, 3, 2))):
        assert [each.due.by for each in owing_for(job).clocks if each.due and each.duty.kind == "next inspection"] == [
            by
        ]


def test_a_job_without_its_nation_says_what_must_be_answered(log: SqliteJobLog) -> None:
    number = kept(log, complete_report())
    (untold,) = untold_in(log)
    assert (untold.number, untold.ask.id) == (number, "nation")


def test_facts_learnt_after_issuing_set_clocks_going(log: SqliteJobLog) -> None:
    number = kept(log, complete_report())
    later = LET_IN_ENGLAND.model_copy(update={"asked_on": date(2026, 6, 1)})
    log.add_note(TOPIC, DutyNote(number=number, answers=later).model_dump_json(), who=INSPECTOR, at=AT)
    assert ("england, copy to the council", date(2026, 6, 8)) in due_ids(log)


def test_what_has_been_done_is_due_no_more_until_it_is_due_on_another_day(log: SqliteJobLog) -> None:
    number = kept(log, answered(complete_report(), LET_IN_ENGLAND), issue=False)
    copy = DutyNote(number=number, met="england, copy to tenants", by=date(2026, 3, 30))
    log.add_note(TOPIC, copy.model_dump_json(), who=INSPECTOR, at=AT)
    assert "england, copy to tenants" not in dict(due_ids(log))
    log.edit(number, Enter(place=INSPECTED_ON, text="01/05/2026"), who=INSPECTOR, at=AT)
    assert ("england, copy to tenants", date(2026, 5, 29)) in due_ids(log)


def test_the_day_on_the_paper_goes_before_one_noted_beside_it(log: SqliteJobLog) -> None:
    number = kept(log, answered(complete_report(), LET_IN_ENGLAND))
    noted_day = DutyNote(number=number, answers=Answers(inspected_on=date(2026, 5, 1)))
    log.add_note(TOPIC, noted_day.model_dump_json(), who=INSPECTOR, at=AT)
    assert ("england, copy to tenants", date(2026, 3, 30)) in due_ids(log)


def test_what_was_noted_can_be_taken_back(log: SqliteJobLog) -> None:
    number = kept(log, complete_report())
    asked = DutyNote(number=number, answers=LET_IN_ENGLAND.model_copy(update={"asked_on": date(2026, 6, 1)}))
    for note in (asked, DutyNote(number=number, taken_back=("asked_on", "no such fact"))):
        log.add_note(TOPIC, note.model_dump_json(), who=INSPECTOR, at=AT)
    assert "england, copy to the council" not in dict(due_ids(log))
    assert "england, copy to tenants" in dict(due_ids(log))


def test_a_report_that_has_been_put_right_asks_for_no_work(log: SqliteJobLog) -> None:
    number = kept(log, answered(complete_report(Code.C2), LET_IN_ENGLAND))
    put_right_by_others(log, number)
    assert "england, remedial work" not in dict(due_ids(log))


def test_a_replaced_document_owes_nothing(log: SqliteJobLog) -> None:
    number = kept(log, answered(complete_minor_works(), BOARD_BY_A_MEMBER))
    again = log.replace(number, because="a reading was misread", who=INSPECTOR, at=AT)
    assert isinstance(again, Job)
    for role in roles_for(again.form_set):
        log.edit(again.number, Sign(role=role, name=INSPECTOR, at=AT), who=INSPECTOR, at=AT)
    assert isinstance(log.issue(again.number, by=INSPECTOR, at=AT, bind=_bound), IssuedPaper)
    assert {line.number for line in due_in(log)} == {again.number}


def test_a_note_that_cannot_be_read_is_passed_over() -> None:
    assert noted(["", "{}", '{"number": "A-0001", "met": "x"}']).keys() == {"A-0001"}


def test_the_facts_of_a_job_are_its_answers_with_its_own_dates() -> None:
    facts = facts_in(answered(complete_report(Code.C2), LET_IN_ENGLAND))
    assert (facts.nation, facts.inspected_on, facts.issued_on) == ("England", date(2026, 3, 2), None)


def test_what_is_late_comes_first_then_month_by_month_and_what_is_only_kept_stands_apart(log: SqliteJobLog) -> None:
    kept(log, answered(complete_report(Code.C2), LET_IN_ENGLAND))
    lines = tuple(due_in(log))
    assert [(section.title, len(section.lines)) for section in sections_of(lines, date(2026, 3, 30))] == [
        ("Late (1)", 1),
        ("March 2026 (1)", 1),
        ("March 2031 (1)", 1),
        ("Papers to be kept until (1)", 1),
    ]
    assert sections_of((), date(2026, 3, 30)) == ()
