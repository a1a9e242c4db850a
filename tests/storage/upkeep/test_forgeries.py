"""Nothing in a log is forged without being told."""

import json
import re
from pathlib import Path

import pytest

from domain.gate.proof import Exhibit, ProofVerdict, Seal
from domain.log.chain import entered, entry_hash
from domain.log.job_log import JobLogError, Query
from domain.register.entries import Person, RegisterKind
from storage.driver import Connection
from storage.sqlite_job_log import SqliteJobLog
from storage.verifying import proof_of
from tests.builders import AT, INSPECTOR, enter
from tests.storage.issuing import LATER, WHO, bind
from tests.storage.upkeep.forgeries import FORGERIES
from tests.storage.upkeep.forging import Forgery, forge
from tests.storage.upkeep.test_tending import tended


@pytest.mark.parametrize("forgery", FORGERIES, ids=lambda forgery: forgery.what)
def test_a_forgery_is_told(home, forgery: Forgery):
    forge(home, forgery)
    says = [fault.says for fault in tended(home).faults]
    assert any(re.search(forgery.told, each) for each in says), says


def _beside_it_all(log: Connection, home: Path) -> None:
    """What a forger may put beside jobs and records, where each is told in words of its own."""
    log.executescript(
        """
        UPDATE ledger SET about = 'A-0001' WHERE kind = 'issued' AND about = 'A-0002';
        CREATE TRIGGER job_fts_mine AFTER INSERT ON edit BEGIN DELETE FROM left_off; END;
        CREATE TRIGGER my_sqlite_helper AFTER INSERT ON edit BEGIN DELETE FROM left_off; END;
        CREATE TRIGGER job AFTER INSERT ON edit BEGIN DELETE FROM left_off; END;
        INSERT INTO operation (device, counter, before, act, job, fence, after, at, body, digest, is_done)
            VALUES ('feed', 1, '', 'issue', 'A-0003', 1, '', '', '{}', '', 1);
        INSERT INTO holding VALUES ('A-0005', 'feed', 1, '', '', '', '', 0);
        INSERT INTO draft SELECT 1, body, crc FROM draft LIMIT 1;
        UPDATE _sqlite_migrations SET name = 'm001_another';
        INSERT INTO pending_task VALUES ('another');
        DELETE FROM near WHERE word = 'bertram';
        DELETE FROM duty_rules;
        INSERT INTO device VALUES ('feed', 'QQ', 7, 1, 0);
        """
    )
    ((seq, chain),) = log.execute("SELECT seq, chain FROM ledger ORDER BY seq DESC LIMIT 1").fetchall()
    sha = entry_hash(b"nothing")
    log.execute("INSERT INTO ledger VALUES (?, 'other', 1, 'A-0001', ?, ?)", (seq + 1, sha, entered(chain, sha)))


def test_whatever_is_put_beside_jobs_and_records_is_told(home):
    forge(home, Forgery("all that has no line in the ledger", _beside_it_all, ""))
    condition = tended(home)
    says = " ".join(each.says for each in condition.faults)
    for told in (
        "The record of A-0002 is not as it was issued.",
        "this program did not make: job, job_fts_mine, my_sqlite_helper.",
        "put into it what laptops tell: operation, holding.",
        "A-0001 was issued, and another program put a draft beside its record.",
        "the steps by which it was laid out.",
        "a task that this program never leaves itself.",
        "Jobs that hold bertram are not found by",
        "of a kind that this program never keeps.",
    ):
        assert told in says
    unproven = " ".join(each.says for each in condition.unproven)
    assert "counted by other rules" in unproven
    assert "a machine that numbers with QQ" in unproven


def test_mending_never_makes_a_false_issue_look_sound(home):
    slipped_in = next(each for each in FORGERIES if each.what == "a draft made an issued paper")
    forge(home, slipped_in)
    before = tended(home).faults
    mended = tended(home, mend=True)
    assert {fault.says for fault in before if fault.jobs} == {fault.says for fault in mended.faults if fault.jobs}
    assert mended.mended[0] == (
        "The lines of the log and its search index were made anew from the jobs."
        " Left as they are, for nothing proves what they should say: A-0004."
    )


def test_a_log_put_back_is_taken_on_by_mending_alone_and_says_so_from_then_on(home):
    forge(home, next(each for each in FORGERIES if "part of the layout" in each.what))
    assert tended(home).faults
    taken_on = tended(home, mend=True)
    assert (taken_on.well, len(taken_on.mended)) == (True, 1)
    assert "took away what protects the log" in tended(home).unproven[0].says


def test_a_record_slipped_in_is_named_by_the_log_its_lists_and_verify_alike(home):
    forge(home, next(each for each in FORGERIES if each.what == "a draft made an issued paper"))
    log = SqliteJobLog.open(home)
    assert {line.number for line in log.find(Query()) if not line.vouched} == {"A-0004"}
    for act in (log.load, log.issued, log.paper):
        with pytest.raises(JobLogError, match="A-0004 stands in the log as issued, but not as this program issued it"):
            act("A-0004")
    assert log.issued("A-0003")
    proof = proof_of(b"%PDF-1.7 A-0004", log, lambda function, *_: _shown("A-0004") if "shown" in function else b"")
    assert (proof.verdict, "A-0004 stands in the log" in proof.says) == (ProofVerdict.ALTERED, True)
    log.close()


def _shown(number: str) -> bytes:
    """What a file that says it is of that number shows, as the process that reads it answers."""
    exhibit = Exhibit(sha256="0" * 64, seal=Seal.HOLDS, is_ours=True, number=number)
    return json.dumps({"exhibit": exhibit.model_dump(mode="json")}).encode()


def test_a_head_kept_elsewhere_is_known_as_long_as_nothing_before_it_was_altered(home):
    log = SqliteJobLog.open(home)
    kept = log.chain_head()
    log.edit("A-0005", enter("client", "name", "Later"), who=WHO, at=AT)
    assert log.had_head(kept)
    assert log.had_head(log.chain_head())
    assert not log.had_head("ab" * 32)
    log.close()
    forge(home, next(each for each in FORGERIES if each.what == "the same, and the ledger made anew"))
    log = SqliteJobLog.open(home)
    assert not log.had_head(kept)
    log.close()


def test_a_paper_names_a_head_over_trails_and_registers_that_the_log_had(home):
    log = SqliteJobLog.open(home)
    before = log.chain_head()
    log.register(Person(name="Rufus Pell"), who=WHO, at=AT)
    after = log.chain_head()
    assert before != after
    assert log.issue("A-0004", by=INSPECTOR, at=LATER, bind=bind).pack.job.issued.head == after
    log.close()
    assert tended(home).well


def test_the_people_of_then_answer_for_a_signature_whatever_the_register_says_since(home):
    log = SqliteJobLog.open(home)
    (person,) = log.registered(RegisterKind.PERSON, "orchard")
    log.register(Person(name=INSPECTOR), entry_id=person.id, who=WHO, at=AT)
    log.close()
    assert tended(home).well
