"""Looking after the log finds what was really done to its files."""

import grp
import os
import stat
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from domain.forms.form_set import FormSet
from domain.gate.issued_paper import IssuedPaper
from domain.log.job_log import JobLogError, Query
from domain.log.upkeep import Concern, Condition
from storage import ledger
from storage.driver import sqlite3
from storage.files import write_part
from storage.log_file import FILE_NAME
from storage.sqlite_job_log import SqliteJobLog
from storage.upkeep import copy_file, paper_records, proved_before, records
from storage.upkeep.sqlite_upkeep import SqliteUpkeep
from tests.builders import AT, INSPECTOR, enter, fresh
from tests.storage.children import ended, forked
from tests.storage.issuing import LATER, WHO, bind, issued_in, sign
from tests.storage.test_trouble import NOT_FOR_PEOPLE

NOW = datetime.now(UTC)


def tended(home: Path, *, mend: bool = False) -> Condition:
    condition = SqliteUpkeep(home).tend(at=NOW, mend=mend)
    assert not (condition.faults and condition.folded), "no trail is folded that was not found whole"
    for fault in condition.faults:
        assert fault.says.endswith("."), fault
        assert fault.do.endswith("."), fault
        assert not NOT_FOR_PEOPLE.search(fault.do)
    return condition


def sole_fault(home: Path, about: Concern) -> str:
    """What is said of the one thing that is wrong."""
    (fault,) = tended(home).faults
    assert fault.about is about, fault
    return fault.says


def said_of(home: Path, about: Concern) -> list[str]:
    """All that is said of one concern."""
    return [fault.says for fault in tended(home).faults if fault.about is about]


def altered(home: Path, *statements: str, guarded: bool = False) -> None:
    """What a general tool does to the file; without guards, it has taken them away and put them back after, unseen."""
    with closing(sqlite3.connect(home / FILE_NAME, isolation_level=None)) as connection:
        ((counted,),) = connection.execute("PRAGMA schema_version").fetchall()
        guards = connection.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
        for name, _ in () if guarded else guards:
            connection.execute(f"DROP TRIGGER {name}")
        for statement in statements:
            connection.execute(statement)
        for _, made in () if guarded else guards:
            connection.execute(made)
        if not guarded:
            connection.execute(f"PRAGMA schema_version = {counted}")


def test_a_log_in_order_is_said_to_be_well_with_its_counts_and_its_chain(home):
    condition = tended(home)
    log = SqliteJobLog.open(home)
    assert (condition.well, condition.faults) == (True, ())
    assert (condition.proof.jobs, condition.proof.issued, condition.proof.head) == (5, 3, log.chain_head())
    log.close()


def test_a_log_in_use_may_be_looked_after_and_loses_nothing_by_it(home):
    log = SqliteJobLog.open(home)
    log.edit("A-0005", enter("client", "name", "Typed meanwhile"), who=WHO, at=AT)
    assert tended(home, mend=True).well
    log.edit("A-0005", enter("client", "name", "Typed after"), who=WHO, at=AT)
    assert [line.number for line in log.find(Query(client="typed after"))] == ["A-0005"]
    log.close()


def flip_page_of(table: str, path: Path) -> None:
    """Alter bytes in the first page of a table, as a failing disk does."""
    with closing(sqlite3.connect(path)) as connection:
        (page,) = connection.execute("SELECT rootpage FROM sqlite_master WHERE name = ?", (table,)).fetchone()
        (size,) = connection.execute("PRAGMA page_size").fetchone()
    with path.open("r+b") as file:
        file.seek((page - 1) * size + 2)
        kept = file.read(14)
        file.seek((page - 1) * size + 2)
        file.write(bytes(byte ^ 0x5A for byte in kept))


@pytest.mark.parametrize("table", ["edit", "job", "issued", "draft"])
def test_bytes_flipped_in_a_page_of_a_table_are_found(home, table):
    flip_page_of(table, home / FILE_NAME)
    condition = tended(home)
    assert not condition.well
    assert Concern.FILE in {fault.about for fault in condition.faults}


def test_a_cut_off_file_and_one_that_is_no_log_are_damaged(home):
    whole = (home / FILE_NAME).read_bytes()
    (home / FILE_NAME).write_bytes(whole[: len(whole) // 3])
    assert Concern.FILE in {fault.about for fault in tended(home).faults}
    (home / FILE_NAME).write_bytes(b"Dear diary, " * 500)
    assert "damaged" in sole_fault(home, Concern.FILE)


def test_an_issued_record_altered_by_hand_is_named(home):
    altered(home, "UPDATE issued SET body = CAST(replace(body, 'WQ7', 'WQ8') AS BLOB) WHERE number = 'A-0002'")
    assert sole_fault(home, Concern.RECORDS) == "The record of A-0002 is not as it was issued."


def test_a_record_altered_together_with_its_hash_breaks_the_chain(home):
    altered(home, "UPDATE issued SET pdf_sha = zeroblob(32) WHERE number = 'A-0002'")
    assert "The chain over issued records is broken at A-0002." in said_of(home, Concern.RECORDS)


def test_a_record_taken_out_of_the_middle_is_missed(home):
    altered(home, "DELETE FROM issued WHERE number = 'A-0002'")
    says = [fault.says for fault in tended(home).faults if fault.about is Concern.RECORDS]
    assert "Before A-0003, 1 issued records are missing." in says
    assert "The chain over issued records is broken at A-0003." in says
    assert "The log calls A-0002 issued, and its records say otherwise." in says


def test_a_job_taken_out_with_all_its_traces_is_missed_by_its_number(home):
    altered(home, *(f"DELETE FROM {table} WHERE job_id = 4" for table in ("hand", "edit", "draft", "left_off")))
    altered(home, "DELETE FROM job_text WHERE id = 4", guarded=True)
    altered(home, "DELETE FROM job WHERE id = 4")
    assert "Numbers were given for jobs that are not there: A-0004." in said_of(home, Concern.RECORDS)
    assert said_of(home, Concern.TRAIL) == ["Edits were taken out of the trail of A-0004."]


def test_a_draft_altered_on_disk_is_named(home):
    altered(home, "UPDATE draft SET body = replace(body, 'Quill', 'Quilt')", guarded=True)
    assert sole_fault(home, Concern.DRAFTS) == "The draft A-0005 is not as it was saved."


def test_a_log_in_which_a_paper_was_replaced_is_well(home):
    log = SqliteJobLog.open(home)
    number = log.replace("A-0003", because="a reading was misread", who=WHO, at=LATER).number
    sign(log, number)
    assert isinstance(log.issue(number, by=INSPECTOR, at=LATER, bind=bind), IssuedPaper)
    log.close()
    assert tended(home).well


def test_an_edit_taken_out_of_the_trail_is_missed(home):
    altered(home, "DELETE FROM edit WHERE job_id = 5 AND version = 7")
    assert "The trail of A-0005 has gaps: edits were taken out." in said_of(home, Concern.TRAIL)


@pytest.mark.parametrize(
    "harm",
    [
        """INSERT INTO job_fts (job_fts, rowid, client, place, other, facets)
        SELECT 'delete', id, client, place, other, facets FROM job_text WHERE id = 2""",
        "DELETE FROM job_fts_data WHERE id > 10",
        "UPDATE job_text SET client = 'somebody else' WHERE id = 2",
        "DELETE FROM job_text WHERE id = 2",
    ],
    ids=["an entry gone from the index", "the index emptied", "words that are another's", "words gone"],
)
def test_a_search_index_that_is_wrong_is_found_and_made_anew_when_asked(home, harm):
    altered(home, harm, guarded=True)
    assert {fault.about for fault in tended(home).faults} == {Concern.SEARCH}
    assert not tended(home).mended
    condition = tended(home, mend=True)
    assert (condition.well, len(condition.mended)) == (True, 1)
    log = SqliteJobLog.open(home)
    assert [line.number for line in log.find(Query(client="zoe", form_set=FormSet.EICR))] == ["A-0002"]
    log.close()


def test_papers_missing_altered_or_never_issued_are_named(home):
    papers = home / "issued"
    (papers / "A-0001.pdf").unlink()
    (papers / "A-0002.pdf").write_bytes(b"%PDF-1.7 another")
    write_part(papers / "A-0009.pdf", b"%PDF-1.7 never issued")
    faults = tended(home).faults
    says = [fault.says for fault in faults]
    assert [fault.about for fault in faults] == [Concern.PAPERS] * 3
    assert "A-0001.pdf is missing" in says[0]
    assert "A-0002.pdf is not the one that was issued" in says[1]
    assert "nothing was issued as it" in says[2]


def test_a_guard_taken_off_or_weakened_and_a_table_added_are_named(home):
    altered(home, "DROP TRIGGER issued_stays_on_update", guarded=True)
    assert "issued_stays_on_update" in said_of(home, Concern.FILE)[0]
    altered(
        home,
        "CREATE TRIGGER issued_stays_on_update BEFORE UPDATE ON issued BEGIN SELECT 1; END",
        "CREATE TABLE somebody_elses (it)",
        guarded=True,
    )
    says = [fault.says for fault in tended(home).faults]
    assert "issued_stays_on_update" in says[0]
    assert "somebody_elses" in says[1]


def test_a_log_others_can_look_into_is_said_to_be_open(home):
    home.chmod(0o755)
    assert "can look into" in sole_fault(home, Concern.ACCESS)
    home.chmod(0o700)
    (home / FILE_NAME).chmod(0o644)
    assert "Open to people" in sole_fault(home, Concern.ACCESS)


def test_a_file_left_half_written_long_ago_is_found_and_removed_when_asked(home):
    fresh_part, old_part = home / "issued" / ".0a.part", home / ".0b.part"
    for part in (fresh_part, old_part):
        write_part(part, b"half")
    old = (NOW - timedelta(hours=2)).timestamp()
    os.utime(old_part, (old, old))
    assert str(old_part) in sole_fault(home, Concern.LEFTOVERS)
    assert tended(home, mend=True).well
    assert (fresh_part.exists(), old_part.exists()) == (True, False)


def test_a_shared_log_and_all_that_is_made_in_it_later_is_open_to_the_group_and_nobody_else(home):
    group = grp.getgrgid(os.getgid()).gr_name

    def work() -> None:
        os.umask(0o077)
        SqliteUpkeep(home).share(group)
        log = SqliteJobLog.open(home)
        log.create(fresh(FormSet.EIC), who=WHO, at=AT)
        issued_in(log)
        modes = {path.name: stat.S_IMODE(path.stat().st_mode) for path in (home, *home.rglob("*"))}
        folders = {"log", "issued", "binding", "packs", "copies", "half-typed"}
        assert modes == {name: 0o2770 if name in folders else 0o660 for name in modes}
        assert {f"{FILE_NAME}-wal", "ohmfolio.lock", "A-0007.pdf"} < modes.keys()
        log.close()

    assert ended(forked(work)) == 0
    assert tended(home).well
    (home / "issued" / "A-0001.pdf").chmod(0o600)
    assert "Closed to the group" in sole_fault(home, Concern.ACCESS)


def test_sharing_with_a_group_that_is_not_there_is_refused_in_words(home):
    with pytest.raises(JobLogError, match=r"There is no group 'nobody-of-that-name'"):
        SqliteUpkeep(home).share("nobody-of-that-name")
    assert stat.S_IMODE(home.stat().st_mode) == 0o700


def test_where_there_is_no_log_or_a_newer_one_nothing_is_looked_at_and_nothing_made(home, tmp_path):
    for work in (lambda: tended(tmp_path / "none"), lambda: SqliteUpkeep(tmp_path / "none").share("root")):
        with pytest.raises(JobLogError, match="There is no job log"):
            work()
    assert not (tmp_path / "none").exists()
    altered(home, "PRAGMA user_version = 999", guarded=True)
    with pytest.raises(JobLogError, match="newer version"):
        tended(home)


def test_a_log_gone_through_row_by_row_is_the_same_log_to_its_last_row(home, monkeypatch):
    """Records, edits, lines and marks are read so many at a time, which is one here."""
    for module in (copy_file, ledger, proved_before, records):
        monkeypatch.setattr(module, "_PAGE", 1)
    monkeypatch.setattr(paper_records, "_AT_ONCE", 1)
    assert tended(home).well
    assert tended(home).proved_before == 5
    altered(
        home,
        "UPDATE issued SET body = CAST(replace(body, 'WQ7', 'WQ8') AS BLOB) WHERE number = 'A-0003'",
        "UPDATE edit SET who = 'rufus' WHERE job_id = 5 AND version = 41",
    )
    says = {fault.says for fault in tended(home).faults}
    assert {
        "The record of A-0003 is not as it was issued.",
        "The trail of A-0005 is not as it was kept: edit 41.",
    } <= says
    altered(home, "UPDATE issued SET body = CAST(replace(body, 'WQ8', 'WQ7') AS BLOB) WHERE number = 'A-0003'")
    altered(home, "UPDATE draft SET body = replace(body, 'Quill', 'Quilt') WHERE job_id = 5", guarded=True)
    with pytest.raises(JobLogError, match="the draft A-0005 is not as it was saved"):
        copy_file.proved(home / FILE_NAME)
