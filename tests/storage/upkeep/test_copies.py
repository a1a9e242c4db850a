"""Copies of the log hold what it holds, and the way back to one loses nothing of what was there."""

import errno
import os
import shutil
import signal
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from domain.forms.form_set import FormSet
from domain.log.job_log import JobLogError, Query
from domain.log.upkeep import Concern
from storage import renaming
from storage.driver import sqlite3
from storage.errors import DamagedError
from storage.files import write_new
from storage.log_file import FILE_NAME
from storage.packs import hand_out
from storage.sqlite_job_log import SqliteJobLog
from storage.upkeep.backing_up import is_due
from storage.upkeep.copy_file import proved
from storage.upkeep.restoring import _next_prefix
from storage.upkeep.sqlite_upkeep import SqliteUpkeep
from tests.builders import AT, enter, fresh
from tests.storage.children import ended, forked
from tests.storage.issuing import WHO, issued_in
from tests.storage.upkeep.test_tending import altered, flip_page_of, tended

pytestmark = pytest.mark.usefixtures("processes_part")

NOW = datetime.now(UTC)


@pytest.fixture
def upkeep(home) -> SqliteUpkeep:
    return SqliteUpkeep(home)


@pytest.fixture
def copy(upkeep, tmp_path) -> str:
    return upkeep.back_up(str(tmp_path / "copy.ohmfolio")).path


def held(home) -> dict[str, object]:
    """Everything a log answers about its jobs."""
    log = SqliteJobLog.open(home)
    numbers = [line.number for line in log.find(Query(limit=1000))]
    answers = {number: (log.load(number), log.line(number), log.trail(number)) for number in numbers}
    head = log.chain_head()
    log.close()
    return {"jobs": answers, "head": head}


def test_a_copy_made_while_others_write_is_whole_and_holds_all_that_was_saved_before(home, upkeep, tmp_path):
    def write() -> None:
        log = SqliteJobLog.open(home)
        for count in range(100_000):
            log.edit("A-0005", enter("client", "name", f"Typed {count}"), who=WHO, at=AT)

    log = SqliteJobLog.open(home)
    saved = log.version("A-0005")
    writer = forked(write)
    while log.version("A-0005") < saved + 5:
        pass
    made = upkeep.back_up(str(tmp_path / "copy.ohmfolio"))
    os.kill(writer, signal.SIGKILL)
    ended(writer)
    log.close()
    assert (made.proof.jobs, made.proof.issued, made.papers, made.missing) == (5, 3, 3, ())
    restored = SqliteUpkeep(tmp_path / "other").restore(made.path, at=NOW)
    assert restored.proof == made.proof
    log = SqliteJobLog.open(tmp_path / "other")
    assert log.version("A-0005") >= saved + 5
    log.close()
    assert {fault.about for fault in tended(tmp_path / "other").faults} == {Concern.KEY}


def test_a_copy_restored_elsewhere_is_the_same_log_with_its_papers_and_numbers_of_its_own(home, copy, tmp_path):
    other = tmp_path / "other"
    restored = SqliteUpkeep(other).restore(copy, at=NOW)
    assert (restored.aside, restored.before, restored.only_there, restored.missing) == ("", None, (), ())
    assert held(other) == held(home)
    for number in ("A-0001", "A-0002", "A-0003"):
        assert (other / "issued" / f"{number}.pdf").read_bytes() == (home / "issued" / f"{number}.pdf").read_bytes()
    assert {fault.about for fault in tended(other).faults} == {Concern.KEY}
    log = SqliteJobLog.open(other)
    log.replace_lost_seal_key(who=WHO, at=AT)
    assert log.create(fresh(FormSet.EIC), who=WHO, at=AT).number == "B-0001"
    assert issued_in(log).number == "B-0002"
    log.close()
    assert tended(other).well


def test_the_log_that_was_there_is_kept_aside_whole_and_what_only_it_issued_is_named(home, upkeep, copy):
    log = SqliteJobLog.open(home)
    issued_in(log)
    log.edit("A-0005", enter("client", "name", "Typed after the copy"), who=WHO, at=AT)
    log.close()
    was = held(home)
    restored = upkeep.restore(copy, at=NOW)
    assert restored.only_there == ("A-0006",)
    assert (restored.before.issued, restored.before.head) == (4, was["head"])
    assert held(home)["head"] == restored.proof.head != was["head"]
    assert tended(home).well
    aside = SqliteUpkeep(home / restored.aside)
    assert aside.tend(at=NOW).well
    assert held(home / restored.aside) == was
    again = upkeep.restore(aside.back_up(f"{copy}.2").path, at=NOW)
    assert (again.only_there, again.aside != restored.aside, again.prefix) == ((), True, "C")
    assert held(home) == was


def test_a_log_damaged_beyond_reading_is_restored_and_kept_aside_as_it_is(home, upkeep, copy):
    junk = b"Dear diary, " * 500
    (home / FILE_NAME).write_bytes(junk)
    restored = upkeep.restore(copy, at=NOW)
    assert restored.before is None
    assert tended(home).well
    assert (home / restored.aside / FILE_NAME).read_bytes() == junk


def test_a_paper_lost_or_another_logs_is_put_right_from_the_copy(home, upkeep, copy):
    whole = (home / "issued" / "A-0001.pdf").read_bytes()
    (home / "issued" / "A-0001.pdf").unlink()
    (home / "issued" / "A-0002.pdf").write_bytes(b"%PDF-1.7 another")
    assert upkeep.restore(copy, at=NOW).missing == ()
    assert (home / "issued" / "A-0001.pdf").read_bytes() == whole
    assert tended(home).well


def test_a_copy_that_was_altered_or_cut_off_is_refused_and_nothing_is_touched(home, upkeep, copy, tmp_path):
    before = held(home)
    shutil.copy(copy, tmp_path / "cut")
    os.truncate(tmp_path / "cut", Path(copy).stat().st_size // 2)
    (tmp_path / "altered").mkdir()
    shutil.copy(copy, tmp_path / "altered" / FILE_NAME)
    altered(tmp_path / "altered", "UPDATE issued SET pages = 9, sha = zeroblob(32) WHERE number = 'A-0002'")
    (tmp_path / "text").write_text("no log")
    for file in ("cut", f"altered/{FILE_NAME}", "text", "nothing", f"log/{FILE_NAME}"):
        with pytest.raises(JobLogError) as trouble:
            upkeep.restore(str(tmp_path / file), at=NOW)
        assert file in str(trouble.value)
    assert held(home) == before
    assert not list(home.glob("before-restore-*"))


def test_a_copy_with_a_damaged_page_is_named_as_the_person_named_it(copy, tmp_path):
    flip_page_of("issued", Path(copy))
    for path, named in ((Path(copy), None), (Path(copy).rename(tmp_path / "part"), Path(copy))):
        with pytest.raises(JobLogError, match=r"copy\.ohmfolio (is damaged|cannot be read)"):
            proved(path, named=named)


def test_nothing_is_restored_under_the_hands_of_somebody_who_has_the_log_open(home, upkeep, copy):
    told, tells = os.pipe()
    waits, wait_over = os.pipe()

    def hold_open() -> None:
        log = SqliteJobLog.open(home)
        os.write(tells, b"open")
        os.read(waits, 1)
        log.edit("A-0005", enter("client", "name", "Typed after"), who=WHO, at=AT)
        log.close()

    child = forked(hold_open)
    os.read(told, 4)
    with pytest.raises(JobLogError, match="open in another program"):
        upkeep.restore(copy, at=NOW)
    os.write(wait_over, b".")
    assert ended(child) == 0
    assert held(home)["jobs"]["A-0005"][1].client == "Typed after"
    upkeep.restore(copy, at=NOW)


def test_a_copy_is_never_written_over_a_file_and_a_log_that_is_not_whole_is_not_copied(home, upkeep, copy, tmp_path):
    with pytest.raises(JobLogError, match="exists already"):
        upkeep.back_up(copy)
    with pytest.raises(JobLogError, match="There is no folder"):
        upkeep.back_up(str(tmp_path / "none" / "copy"))
    altered(home, "UPDATE draft SET body = replace(body, 'Quill', 'Quilt')", guarded=True)
    with pytest.raises(JobLogError, match="not whole"):
        upkeep.back_up(str(tmp_path / "another"))
    assert {path.name for path in tmp_path.iterdir()} == {"log", "copy.ohmfolio"}


def test_a_copy_is_plain_sqlite_that_general_tools_read_even_on_a_disk_that_may_not_be_written(copy):
    Path(copy).chmod(0o400)
    with closing(sqlite3.connect(f"file:{copy}?mode=ro", uri=True)) as connection:
        assert connection.execute("PRAGMA journal_mode").fetchall() == [("delete",)]
        assert len(connection.execute("SELECT * FROM log_jobs").fetchall()) == 5
        assert [row[0][:5] for row in connection.execute("SELECT pdf FROM paper")] == [b"%PDF-"] * 3


def test_one_copy_a_day_is_kept_for_so_many_days_and_none_where_nothing_changed(home, upkeep):
    log = SqliteJobLog.open(home)
    for day in range(5):
        for turn in range(2):
            log.edit("A-0005", enter("client", "name", f"Typed on day {day} {turn}"), who=WHO, at=AT)
            assert upkeep.copy_of_the_day(at=NOW + timedelta(days=day), keep=3) is not None
    log.close()
    names = [(NOW + timedelta(days=day)).date().isoformat() + ".ohmfolio" for day in (2, 3, 4)]
    assert sorted(path.name for path in (home / "copies").iterdir()) == names
    upkeep.copy_of_the_day(at=NOW + timedelta(days=4), keep=3)
    assert not is_due(home)
    assert upkeep.copy_of_the_day(at=NOW + timedelta(days=5), keep=3) is None
    assert upkeep.restore(str(home / "copies" / names[-1]), at=NOW).missing == ()
    assert held(home)["jobs"]["A-0005"][1].client == "Typed on day 4 1"
    assert tended(home).well


def test_a_clock_that_ran_ahead_costs_no_copy_of_a_day(home, upkeep):
    for day in (4000, 0, 1, 2):
        log = SqliteJobLog.open(home)
        log.edit("A-0005", enter("client", "name", f"Typed on day {day}"), who=WHO, at=AT)
        log.close()
        if day == 4000:
            ahead = upkeep.copy_of_the_day(at=NOW + timedelta(days=day), keep=3)
            os.utime(ahead.path, (NOW.timestamp() + 4000 * 86400,) * 2)
        else:
            assert is_due(home)
            assert upkeep.copy_of_the_day(at=NOW + timedelta(days=day), keep=3) is not None
    days = [(NOW + timedelta(days=day)).date().isoformat() + ".ohmfolio" for day in (0, 1, 2)]
    assert sorted(path.name for path in (home / "copies").iterdir()) == days


def test_copies_made_after_going_back_to_one_are_newer_than_those_before(home, upkeep, copy):
    log = SqliteJobLog.open(home)
    for _ in range(5):
        log.create(fresh(FormSet.EIC), who=WHO, at=AT)
    log.close()
    upkeep.copy_of_the_day(at=NOW, keep=1)
    upkeep.restore(copy, at=NOW)
    assert upkeep.copy_of_the_day(at=NOW + timedelta(days=1), keep=1) is not None
    assert [path.name for path in (home / "copies").iterdir()] == [
        (NOW + timedelta(days=1)).date().isoformat() + ".ohmfolio"
    ]


def test_no_step_needs_a_second_name_for_a_file_as_memory_sticks_know_none(home, upkeep, copy, tmp_path, monkeypatch):
    def link(*_given, **_named):
        raise PermissionError(1, "Operation not permitted")

    monkeypatch.setattr(os, "link", link)
    log = SqliteJobLog.open(home)
    paper = issued_in(log)
    files = hand_out(paper, log.paper(paper.number), tmp_path / "pack")
    assert files[0].read_bytes() == (home / "issued" / f"{paper.number}.pdf").read_bytes()
    log.close()
    again = upkeep.back_up(str(tmp_path / "again.ohmfolio"))
    with pytest.raises(FileExistsError):
        write_new(tmp_path / "again.ohmfolio", b"another")
    assert upkeep.restore(again.path, at=NOW).missing == ()
    assert tended(home).well


def test_a_system_without_a_rename_that_spares_others_still_spares_them(tmp_path, monkeypatch):
    monkeypatch.setattr(renaming, "_renamed", lambda path, name: errno.ENOSYS)
    write_new(tmp_path / "it", b"one")
    with pytest.raises(FileExistsError):
        write_new(tmp_path / "it", b"other")
    assert (tmp_path / "it").read_bytes() == b"one"
    assert [path.name for path in tmp_path.iterdir()] == ["it"]


@pytest.mark.parametrize(
    ("known", "following"),
    [
        ((), "A"),
        (("A",), "B"),
        (("A", "C", "B"), "D"),
        (("Y",), "Z"),
        (("Z", "A"), "AA"),
        (("AA", "Z"), "AB"),
        (("AZ",), "BA"),
        (("BZ", "C"), "CA"),
        (("ZZ",), "AAA"),
        (("AZZ",), "BAA"),
    ],
)
def test_a_restored_log_goes_on_with_letters_that_no_log_had_before_it(known, following):
    assert _next_prefix(known) == following


def test_a_log_with_a_draft_of_no_job_is_not_copied_and_says_so(home, tmp_path):
    altered(home, "PRAGMA foreign_keys = OFF", "INSERT INTO draft (job_id, body, crc) VALUES (999, '{}', 0)")
    with pytest.raises(DamagedError, match="is not whole, so no copy was made"):
        SqliteUpkeep(home).back_up(str(tmp_path / "copy.ohmfolio"))
    assert not (tmp_path / "copy.ohmfolio").exists()
