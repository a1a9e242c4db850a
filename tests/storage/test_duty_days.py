"""The days that duties are due: written with every edit and note, found in order, the same as the jobs themselves give."""

from contextlib import closing
from datetime import date

import pytest

from domain.duties.duty_days import called, duty_called, rules_version
from domain.duties.duty_facts import duty_facts
from domain.duties.noted import TOPIC, DutyNote
from domain.duties.of_job import owing_for
from domain.duties.owing import Owed
from domain.editing.commands import Choose
from domain.forms.choice.answers import Answers
from domain.gate.issued_paper import IssuedPaper
from domain.inspection.observation import Code
from domain.log.due_days import DueAsked
from domain.log.due_list import due_in, untold_in
from storage.driver import sqlite3
from storage.log_file import FILE_NAME
from storage.rows import DATED, dated_from
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, INSPECTOR, complete_certificate, complete_report, done, enter, signed
from tests.storage.issuing import LATER, WHO, bind, issued_in, sign

LET = Answers.model_validate({"done": "inspection", "nation": "England", "tenure": "private-let"})
A_SHOP = Answers.model_validate({"done": "inspection", "tenure": "not-home", "kind": "Commercial"})


def with_answers(job, answers: Answers):
    return signed(done(job, Choose(chosen=job.chosen.model_copy(update={"answers": answers}))))


def told(log) -> list[tuple[str, Owed]]:
    return [(line.number, line.owed) for line in due_in(log)]


def given_by_the_jobs(log, *numbers: str) -> list[tuple[str, Owed]]:
    owed = [(number, each) for number in numbers for each in owing_for(log.load(number)).clocks]
    return sorted(owed, key=lambda each: (each[1].due.by, numbers.index(each[0]), called(each[1].duty)))


@pytest.fixture
def numbers(log) -> tuple[str, ...]:
    jobs = (
        with_answers(complete_report(Code.C2), LET),
        with_answers(complete_report(), A_SHOP),
        complete_certificate(),
    )
    return tuple(log.create(job, who=WHO, at=AT).number for job in jobs)


def test_days_are_those_that_the_jobs_give_and_follow_an_edit(log, numbers):
    assert told(log) == given_by_the_jobs(log, *numbers) != []
    before = told(log)
    log.edit(numbers[0], enter("report", "inspected_on", "01/05/2026"), who=WHO, at=LATER)
    log.undo(numbers[0], who=WHO, at=LATER)
    assert told(log) == before
    log.edit(numbers[0], enter("report", "inspected_on", "01/05/2026"), who=WHO, at=LATER)
    assert told(log) == given_by_the_jobs(log, *numbers) != before


def test_pages_joined_are_the_whole_list_and_a_day_ends_it(log, numbers):
    whole = list(due_in(log))
    paged, after = [], None
    while page := list(due_in(log, DueAsked(after=after, limit=2))):
        paged += page
        after = page[-1].place
    assert paged == whole
    until = whole[len(whole) // 2].by
    assert list(due_in(log, DueAsked(until=until))) == [line for line in whole if line.by <= until]
    middle = DueAsked(first=whole[1].by, until=until)
    assert list(due_in(log, middle)) == [line for line in whole if whole[1].by <= line.by <= until]
    asking = [each.number for each in untold_in(log)]
    assert [each.number for each in untold_in(log, asking[0])] == asking[1:]
    assert log.count_unanswered() == len(asking)


def test_what_was_done_is_listed_apart_the_newest_first(log, numbers):
    lines = [line for line in due_in(log) if line.number == numbers[0]][:2]
    for turn, line in enumerate(lines):
        note = DutyNote(
            number=line.number, met=line.owed.duty.id, by=line.by, on=date(2026, 3, 10 + turn), word="by post"
        )
        log.add_note(TOPIC, note.model_dump_json(), who=WHO, at=LATER)
    marked = list(due_in(log, DueAsked(done=True)))
    assert [line.key for line in marked] == [line.key for line in reversed(lines)]
    assert [(line.done.who, line.done.word) for line in marked] == [(WHO, "by post")] * 2
    assert not {line.key for line in lines} & {line.key for line in due_in(log) if line.number == numbers[0]}


def test_a_replaced_paper_is_due_nothing(log):
    issued_in(log, with_answers(complete_report(), LET))
    again = log.replace("A-0001", because="a reading was misread", who=WHO, at=LATER)
    sign(log, again.number)
    assert isinstance(log.issue(again.number, by=INSPECTOR, at=LATER, bind=bind), IssuedPaper)
    assert {line.number for line in due_in(log)} == {again.number}


def test_a_row_of_the_rules_is_found_by_what_it_is_called_and_one_that_is_gone_says_so():
    shop = with_answers(complete_report(), A_SHOP)
    (look,) = [each.duty for each in owing_for(shop).clocks if each.duty.id == "next inspection recommended"]
    assert duty_called(called(look)) == look
    for gone in ("no such row", "next inspection recommended|no edition|completed_on|a moat"):
        assert "no longer" in duty_called(gone).what


def test_days_counted_by_other_rules_or_by_none_yet_are_counted_anew_once_they_are_asked_for(home):
    with closing(SqliteJobLog.open(home)) as log:
        issued_in(log, with_answers(complete_report(Code.C2), LET))
        log.create(with_answers(complete_report(), A_SHOP), who=WHO, at=AT)
        expected = list(due_in(log))
    for altered in ("DELETE FROM duty_rules", "UPDATE duty_rules SET version = 'of another year'"):
        with closing(sqlite3.connect(home / FILE_NAME, isolation_level=None)) as file:
            for statement in ("DELETE FROM duty_day", "DELETE FROM duty_job", altered):
                file.execute(statement)
        with closing(SqliteJobLog.open(home)) as log:
            assert list(due_in(log)) == expected
        with closing(sqlite3.connect(home / FILE_NAME)) as file:
            assert file.execute("SELECT version FROM duty_rules").fetchall() == [(rules_version(),)]


def test_what_is_read_of_documents_where_they_lie_is_what_the_jobs_say(home):
    with closing(SqliteJobLog.open(home)) as log:
        numbers = [
            issued_in(log, complete_report(Code.C2)).number,
            log.create(complete_report(), who=WHO, at=AT).number,
        ]
        with closing(sqlite3.connect(home / FILE_NAME)) as file:
            read = [dated_from(row[1:]) for row in file.execute(DATED).fetchall()]
        assert {line.number: facts for line, facts in read} == {each: duty_facts(log.load(each)) for each in numbers}


def test_a_page_is_found_by_its_index_and_reads_no_document(home):
    with closing(SqliteJobLog.open(home)) as log:
        issued_in(log, with_answers(complete_report(Code.C2), LET))
        assert list(due_in(log))
    with closing(sqlite3.connect(home / FILE_NAME)) as file:
        for asked, index in (
            ("done_on IS NULL AND by > 5 ORDER BY by, job_id, duty", "duty_day_by"),
            ("done_on IS NOT NULL ORDER BY done_on DESC", "duty_day_done"),
        ):
            plan = file.execute(f"EXPLAIN QUERY PLAN SELECT job_id FROM duty_day WHERE {asked} LIMIT 50").fetchall()
            assert all(index in row[-1] and "TEMP" not in row[-1] for row in plan)
