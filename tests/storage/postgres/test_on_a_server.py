"""What only a log on a server can meet: layouts, rights, other hands on its tables."""

import threading
from datetime import timedelta

import psycopg
import pytest

from domain.duties.noted import TOPIC, DutyNote
from domain.editing.commands import Declined, Sign
from domain.forms.form_set import FormSet
from domain.gate.issued_paper import IssuedPaper
from domain.job.signature import Role
from domain.log.due_days import DueAsked
from domain.log.job_log import JobLogError, Query
from domain.log.upkeep import Concern
from domain.register.entries import Person
from storage.postgres.layout import GUARDS, LAYOUT
from storage.postgres.postgres_job_log import PostgresJobLog, has_log_at
from storage.postgres.postgres_upkeep import PostgresUpkeep
from storage.postgres.server_address import ServerAddress
from tests.builders import AT, INSPECTOR, complete_minor_works, enter, fresh
from tests.storage.database_server import DatabaseServer, told
from tests.storage.issuing import LATER, WHO, bind, issued_in


@pytest.fixture
def office(address):
    log = PostgresJobLog.open(address)
    yield log
    log.close()


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE issued SET issued_by = 'somebody else'",
        "DELETE FROM issued",
        "TRUNCATE issued CASCADE",
        "UPDATE paper SET pdf = ''",
        "DELETE FROM paper",
        "TRUNCATE paper",
        "UPDATE edit SET what = 'nothing'",
        "DELETE FROM edit",
        "TRUNCATE edit",
        "DELETE FROM register",
        "DELETE FROM job",
        "UPDATE job SET state = 'draft'",
        "INSERT INTO draft (job_id, body, crc) SELECT id, '{}', 0 FROM job",
        "INSERT INTO job SELECT 9, 'A-0009', 1, '', '', 'EIC', 'issued', NULL, 0, NULL, 0, NULL, 0, NULL, ''",
        "UPDATE ledger SET about = 'A-0009'",
        "DELETE FROM ledger",
        "TRUNCATE ledger",
        "INSERT INTO ledger SELECT seq, kind, row, 'A-0009', sha, chain FROM ledger",
    ],
)
def test_what_was_issued_and_done_stays_whoever_tells_the_server_otherwise(an_issued_log, statement) -> None:
    assert told(statement, an_issued_log)
    assert PostgresUpkeep(an_issued_log).tend(at=AT).well


def test_a_log_begun_by_many_at_once_is_begun_once(database_server: DatabaseServer) -> None:
    address = database_server.address("postgres", "begun_at_once")
    assert not has_log_at(address)

    def begin() -> None:
        log = PostgresJobLog.open(address)
        log.create(fresh(FormSet.EIC), who=WHO, at=AT)
        log.close()

    together([begin] * 4)
    log = PostgresJobLog.open(address)
    assert [line.number for line in log.find(Query())] == ["A-0004", "A-0003", "A-0002", "A-0001"]
    log.close()
    assert told(f"UPDATE layout SET version = {LAYOUT + 1}", address) == ""
    with pytest.raises(JobLogError, match="newer version"):
        PostgresJobLog.open(address)


def test_what_is_no_log_is_left_alone(database_server: DatabaseServer) -> None:
    database_server.tell("CREATE SCHEMA taken")
    database_server.tell("CREATE TABLE taken.somebody_elses (it text)")
    with pytest.raises(JobLogError, match="holds something else"):
        PostgresJobLog.open(database_server.address("postgres", "taken"))


def test_a_log_that_lost_what_protects_it_is_not_opened_and_tending_says_so(database_server) -> None:
    address = database_server.address("postgres", "unguarded")
    PostgresJobLog.open(address).close()
    assert len(GUARDS) == 13
    assert told("ALTER TABLE issued DISABLE TRIGGER issued_stays", address) == ""
    with pytest.raises(JobLogError, match="lost what protects"):
        PostgresJobLog.open(address)
    assert [fault.about for fault in PostgresUpkeep(address).tend(at=AT).faults] == [Concern.FILE]


def test_people_of_a_role_work_in_the_log_and_can_take_nothing_out_of_it(office, address, database_server) -> None:
    database_server.tell("CREATE ROLE hetty LOGIN")
    theirs = database_server.address("postgres", person="hetty")
    with pytest.raises(JobLogError, match="no right"):
        PostgresJobLog.open(theirs)
    PostgresUpkeep(address).share("hetty")
    log = PostgresJobLog.open(theirs)
    issued = issued_in(log)
    draft = log.create(fresh(FormSet.EIC), who=WHO, at=AT).number
    log.edit(draft, enter("client", "name", "Zoë"), who=WHO, at=AT)
    log.save_position(draft, "client", who=WHO)
    log.register(Person(name="Hetty Marsh"), who=WHO, at=AT)
    correction = log.replace(issued.number, because="a reading was misread", who=WHO, at=LATER).number
    assert log.find(Query(words="zoe", number=draft))
    assert list(log.due(DueAsked()))
    log.close()
    assert correction == "A-0003"
    for act in ("UPDATE issued SET pages = 1", "DELETE FROM paper", "UPDATE device SET prefix = 'B'", "TRUNCATE note"):
        assert "permission denied" in told(act, theirs)
    for act in ("DROP TRIGGER issued_stays ON issued", "ALTER TABLE edit DISABLE TRIGGER ALL", "DROP TABLE paper"):
        assert "must be owner" in told(act, theirs)
    with pytest.raises(JobLogError, match="no role 'nobody'"):
        PostgresUpkeep(address).share("nobody")


def test_tending_finds_what_was_altered_past_the_guards(office, address) -> None:
    number = issued_in(office).number
    draft = office.create(complete_minor_works(), who=WHO, at=AT).number
    assert PostgresUpkeep(address).tend(at=AT).well
    for act, about in (
        ("UPDATE issued SET body = body || ' '::bytea", Concern.RECORDS),
        ("UPDATE paper SET pdf = 'another'", Concern.PAPERS),
        ("UPDATE draft SET body = replace(body, '0.49', '0.31')", Concern.DRAFTS),
        (f"DELETE FROM edit WHERE job_id = (SELECT id FROM job WHERE number = '{draft}')", Concern.TRAIL),
    ):
        assert told(f"BEGIN; SET LOCAL session_replication_role = replica; {act}; COMMIT", address) == ""
        assert about in {fault.about for fault in PostgresUpkeep(address).tend(at=AT).faults}
    for ask in (lambda: office.load(draft), lambda: office.paper(number), lambda: office.load(number)):
        with pytest.raises(JobLogError):
            ask()


@pytest.mark.parametrize(
    ("act", "about", "says"),
    [
        ("UPDATE edit SET who = 'somebody else' WHERE version = 1", Concern.TRAIL, "not as it was kept: edit 1"),
        ("UPDATE note SET text = 'another'", Concern.NOTES, "not as they were kept"),
        ("DELETE FROM note", Concern.NOTES, "taken out"),
        (
            "INSERT INTO note (topic, who, at, text) VALUES ('practice', '', 0, '')",
            Concern.NOTES,
            "Another program put",
        ),
        ("UPDATE register SET body = replace(body, 'Agnes', 'Ethel')", Concern.REGISTERS, "not as they were kept"),
        ("UPDATE ledger SET sha = chain WHERE seq = 2", Concern.LEDGER, "does not hold together from its line 2"),
        ("DELETE FROM ledger WHERE seq = 2", Concern.LEDGER, "does not hold together from its line 3"),
    ],
)
def test_tending_finds_what_no_longer_agrees_with_the_ledger(office, address, act, about, says) -> None:
    office.create(fresh(FormSet.EIC), who=WHO, at=AT)
    office.add_note("practice", "a case", who=WHO, at=AT)
    office.register(Person(name="Agnes Quill"), who=WHO, at=AT)
    assert PostgresUpkeep(address).tend(at=AT).well
    assert told(f"BEGIN; SET LOCAL session_replication_role = replica; {act}; COMMIT", address) == ""
    faults = PostgresUpkeep(address).tend(at=AT).faults
    assert any(fault.about is about and says in fault.says for fault in faults)


@pytest.mark.parametrize("act", ["DELETE FROM duty_rules", "UPDATE duty_rules SET version = 'of another year'"])
def test_days_counted_by_other_rules_are_counted_anew_once_they_are_asked_for(office, address, act) -> None:
    number = issued_in(office).number
    expected = list(office.due(DueAsked()))
    note = DutyNote(number=number, met=expected[0].day.owed.duty.id, by=expected[0].day.by, on=AT.date())
    for text in ("no JSON", "[1]", '"\\ud800"', note.model_dump_json()):
        office.add_note(TOPIC, text, who=WHO, at=LATER)
    left = list(office.due(DueAsked()))
    assert [row.day.by for row in office.due(DueAsked(done=True))] == [expected[0].day.by]
    assert len(left) == len(expected) - 1
    assert told(f"DELETE FROM duty_day; DELETE FROM duty_job; {act}", address) == ""
    assert (list(office.due(DueAsked())), len(list(office.due(DueAsked(done=True))))) == (left, 1)


def test_tending_finds_days_that_are_not_those_of_the_job_and_says_how_far_it_looked(office, address) -> None:
    issued_in(office)
    assert list(office.due(DueAsked()))
    done: list[tuple[int, int]] = []
    assert PostgresUpkeep(address).tend(at=AT, told=lambda at, of: done.append((at, of))).well
    assert done == [(1, 1)]
    assert told("UPDATE duty_day SET by = by + 1", address) == ""
    (fault,) = PostgresUpkeep(address).tend(at=AT).faults
    assert (fault.about, "A-0001" in fault.says) == (Concern.LINES, True)
    later = LATER + timedelta(days=1)
    condition = PostgresUpkeep(address).tend(at=AT, since=later)
    assert (condition.well, condition.since) == (True, later)


def test_a_page_of_what_is_due_is_found_by_its_index(address) -> None:
    PostgresJobLog.open(address).close()
    with psycopg.connect(address.url) as connection:
        connection.execute(f"SET search_path = {address.schema}; SET enable_seqscan = off; SET enable_bitmapscan = off")
        for asked, index in (
            ("done_on IS NULL AND (by, job_id, duty) > (5, 0, '') ORDER BY by, job_id, duty", "duty_day_by"),
            (
                "done_on IS NOT NULL AND (done_on, job_id, duty) < (5, 0, '') ORDER BY done_on DESC, job_id DESC, duty DESC",
                "duty_day_done",
            ),
        ):
            plan = connection.execute(f"EXPLAIN SELECT job_id FROM duty_day WHERE {asked} LIMIT 50").fetchall()
            said = " ".join(row[0] for row in plan)
            assert index in said
            assert "Sort" not in said


def test_a_record_that_the_program_never_issued_is_shown_as_such_and_not_opened(office, address) -> None:
    number = issued_in(office).number
    draft = office.create(complete_minor_works(), who=WHO, at=AT).number
    slipped_in = (
        "INSERT INTO issued SELECT 2, job.id, job.number, body, sha, chain, pdf_sha, pages, NULL, issued_by, issued_at"
        f" FROM issued, job WHERE job.number = '{draft}'; UPDATE job SET state = 'issued' WHERE number = '{draft}'"
    )
    assert told(f"BEGIN; {slipped_in}; COMMIT", address) == ""
    assert {line.number: line.vouched for line in office.find(Query())} == {number: True, draft: False}
    for ask in (office.load, office.issued, office.paper):
        with pytest.raises(JobLogError, match="not as this program issued it"):
            ask(draft)
    assert office.load(number)


def test_papers_of_a_log_on_a_server_are_sealed_with_the_key_in_the_folder_of_this_computer(address, tmp_path) -> None:
    office = PostgresJobLog.open(address, tmp_path / "here")
    (key,) = (issued_in(office), *office.seal_keys())[1:]
    assert office.load("A-0001").issued.sealed_with.key == key.key
    elsewhere = PostgresJobLog.open(address, tmp_path / "elsewhere")
    number = elsewhere.create(complete_minor_works(), who=WHO, at=AT).number
    with pytest.raises(JobLogError, match=r"seal\.key is gone.*Nothing was issued"):
        elsewhere.issue(number, by=INSPECTOR, at=LATER, bind=bind)
    office.close()
    elsewhere.close()


def test_two_who_issue_and_two_who_begin_at_once_make_one_chain_and_no_gap(office, address) -> None:
    numbers = [office.create(complete_minor_works(), who=WHO, at=AT).number for _ in range(6)]
    together(
        [lambda each=each: office.issue(each, by=INSPECTOR, at=LATER, bind=bind) for each in numbers]
        + [lambda: office.create(fresh(FormSet.EIC), who=WHO, at=AT)] * 4
    )
    assert all(isinstance(office.issued(each), IssuedPaper) for each in numbers)
    assert {line.number for line in office.find(Query())} == {f"A-{count:04d}" for count in range(1, 11)}
    assert PostgresUpkeep(address).tend(at=AT).well


def test_one_job_begun_twice_at_once_under_one_name_is_begun_once(office) -> None:
    together([lambda: office.create(fresh(FormSet.EIC), who=WHO, at=AT, op="laptop 4: 1")] * 4)
    assert [line.number for line in office.find(Query())] == ["A-0001"]


def test_nobody_signs_while_the_register_is_being_changed_against_them(office, address) -> None:
    """Whoever signs goes by the register as it is when the signature is kept, not as it was when they began to."""
    number = office.create(complete_minor_works(sign=False), who=WHO, at=AT).number
    may = Person(name=INSPECTOR, signs=(Role.MINOR_WORKS,))
    person = office.register(may, who=WHO, at=AT)
    answers: list[object] = []
    sign = Sign(role=Role.MINOR_WORKS, name=INSPECTOR, at=LATER)
    signer = threading.Thread(target=lambda: answers.append(office.edit(number, sign, who=WHO, at=LATER)))
    with office._store.transaction():
        office._store.registers.add(
            Person(name=INSPECTOR), entry_id=person.id, version=2, who=WHO, at=AT, retired=False
        )
        signer.start()
        while not waiting(address):
            assert answers == []
    signer.join()
    assert isinstance(answers[0], Declined)
    assert office.load(number).signatures == ()


def waiting(address: ServerAddress) -> bool:
    """Somebody waits for somebody else at the server."""
    with psycopg.connect(address.url) as connection:
        return connection.execute("SELECT 1 FROM pg_locks WHERE NOT granted").fetchall() != []


def together(acts) -> None:
    """Do all of it at once, in threads."""
    threads = [threading.Thread(target=act) for act in acts]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
