"""What was issued cannot be altered, taken away or made up, not even past the program."""

import os

import pytest

from domain.editing.commands import Sign
from domain.gate.assessment import Refusal
from domain.gate.issued_paper import IssuedPaper
from domain.job.signature import roles_for
from domain.log.chain import leaf, link
from domain.log.job_log import BoundPaper, JobLogError, State
from storage import issued_papers
from storage.driver import sqlite3
from storage.log_file import FILE_NAME
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, INSPECTOR, complete_minor_works
from tests.storage.children import ended, forked
from tests.storage.issuing import bind, issued_in

WHO = "tamsin"


@pytest.fixture
def past_the_program(sqlite_log, home):
    issued_in(sqlite_log)
    sqlite_log.create(complete_minor_works(), who=WHO, at=AT)
    connection = sqlite3.connect(home / FILE_NAME, isolation_level=None)
    yield connection
    connection.close()


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE issued SET body = x'00'",
        "UPDATE issued SET pages = 4",
        "DELETE FROM issued",
        "INSERT OR REPLACE INTO issued SELECT * FROM issued",
        "REPLACE INTO issued SELECT seq + 1, job_id, 'A-0077', body, sha, chain, pdf_sha, pages, replaces, issued_by, issued_at FROM issued",
        "UPDATE edit SET who = 'nobody'",
        "DELETE FROM edit WHERE version = 1",
        "INSERT OR REPLACE INTO edit SELECT seq, op, job_id, version, at, 'nobody', what, command, begun, changes, undoes, redoes FROM edit",
        "UPDATE job SET state = 'draft' WHERE number = 'A-0001'",
        "UPDATE job SET state = 'issued' WHERE number = 'A-0002'",
        "UPDATE job SET state = 'replaced' WHERE number = 'A-0002'",
        "INSERT INTO job SELECT 9, 'A-0009', version, client, premises, form_set, state, outcome, open_snags, replaces, updated, due, put_right, day, laid_aside FROM job WHERE number = 'A-0001'",
        "INSERT INTO draft SELECT 1, body, crc FROM draft",
        "UPDATE draft SET job_id = 1",
    ],
)
def test_the_file_itself_refuses_to_alter_what_was_issued_or_done(past_the_program, statement):
    with pytest.raises(sqlite3.IntegrityError):
        past_the_program.execute(statement)


def test_the_paper_is_kept_beside_the_log_as_it_was_bound(sqlite_log, home):
    issued = issued_in(sqlite_log)
    assert issued.kept == str(home / "issued" / "A-0001.pdf")
    assert (home / "issued" / "A-0001.pdf").read_bytes() == bind(issued.pack).pdf
    assert list((home / "binding").iterdir()) == []


def test_each_record_is_chained_to_all_before_it(sqlite_log, home):
    for _ in range(3):
        issued_in(sqlite_log)
    connection = sqlite3.connect(home / FILE_NAME)
    previous = bytes(32)
    for body, sha, chain, pdf_sha in connection.execute("SELECT body, sha, chain, pdf_sha FROM issued ORDER BY seq"):
        assert sha == leaf(body)
        previous = link(previous, sha, pdf_sha)
        assert chain == previous
    connection.close()


def test_an_altered_record_is_not_shown_as_issued(past_the_program, sqlite_log):
    past_the_program.execute("DROP TRIGGER issued_stays_on_update")
    past_the_program.execute("UPDATE issued SET body = CAST(replace(CAST(body AS TEXT), '0.49', '0.31') AS BLOB)")
    with pytest.raises(JobLogError, match="record of A-0001 is damaged"):
        sqlite_log.issued("A-0001")


def test_a_file_that_lost_its_guards_is_not_opened(past_the_program, sqlite_log, home):
    past_the_program.execute("DROP TRIGGER issued_stays_on_delete")
    with pytest.raises(JobLogError, match="altered it"):
        SqliteJobLog.open(home)


def test_a_paper_never_takes_the_place_of_another_file(sqlite_log, home):
    number = sqlite_log.create(complete_minor_works(), who=WHO, at=AT).number
    kept = home / "issued" / f"{number}.pdf"
    kept.parent.mkdir()
    kept.write_bytes(b"somebody's own")
    with pytest.raises(JobLogError, match="is there already"):
        sqlite_log.issue(number, by=INSPECTOR, at=AT, bind=bind)
    assert kept.read_bytes() == b"somebody's own"
    assert sqlite_log.line(number).state is State.READY
    kept.unlink()
    assert isinstance(sqlite_log.issue(number, by=INSPECTOR, at=AT, bind=bind), IssuedPaper)


def issue_and_end_after(home, module, call: str) -> None:
    """Issue a job, and end without a word when a step with the paper has been made."""
    log = SqliteJobLog.open(home)
    number = log.create(complete_minor_works(), who=WHO, at=AT).number
    made = getattr(module, call)

    def make_it_and_end(*given):
        made(*given)
        os._exit(9)

    def bind_and_wait_for_it(pack) -> BoundPaper:
        setattr(module, call, make_it_and_end)
        return bind(pack)

    log.issue(number, by=INSPECTOR, at=AT, bind=bind_and_wait_for_it)


@pytest.mark.parametrize(
    ("module", "call", "is_kept"),
    [(os, "fsync", False), (issued_papers, "sync_folder", False), (issued_papers, "rename_new", True)],
)
def test_a_program_that_ends_while_issuing_leaves_a_draft_or_a_paper_and_nothing_between(home, module, call, is_kept):
    assert ended(forked(lambda: issue_and_end_after(home, module, call))) == 9
    log = SqliteJobLog.open(home)
    is_issued = log.line("A-0001").state is State.ISSUED
    assert is_issued is is_kept
    assert (home / "issued" / "A-0001.pdf").exists() is is_issued
    assert list((home / "binding").iterdir()) == []
    assert isinstance(log.issue("A-0001", by=INSPECTOR, at=AT, bind=bind), Refusal if is_issued else IssuedPaper)
    log.close()


def test_two_corrections_cannot_both_replace_one_paper(sqlite_log, home):
    old = issued_in(sqlite_log).number
    correction = sqlite_log.replace(old, because="a reading was misread", who=WHO, at=AT)
    for role in roles_for(correction.form_set):
        sqlite_log.edit(correction.number, Sign(role=role, name=INSPECTOR, at=AT), who=WHO, at=AT)
    sqlite_log.issue(correction.number, by=INSPECTOR, at=AT, bind=bind)
    connection = sqlite3.connect(home / FILE_NAME)
    assert connection.execute("SELECT number, replaces FROM issued ORDER BY seq").fetchall() == [
        ("A-0001", None),
        ("A-0002", "A-0001"),
    ]
    connection.close()


def test_a_paper_kept_whose_program_ended_before_it_had_its_name_is_read_and_named_by_the_next(home):
    def end(*_given):
        os._exit(9)

    def issue_and_end_before() -> None:
        log = SqliteJobLog.open(home)
        number = log.create(complete_minor_works(), who=WHO, at=AT).number
        issued_papers.rename_new = end
        log.issue(number, by=INSPECTOR, at=AT, bind=bind)

    assert ended(forked(issue_and_end_before)) == 9
    assert not (home / "issued" / "A-0001.pdf").exists()
    log = SqliteJobLog.open(home)
    assert log.paper("A-0001") == (home / "issued" / "A-0001.pdf").read_bytes() == b"%PDF-1.7 A-0001"
    log.close()
