"""What tend proved is not gone through again, unless anything of it was touched, or it is asked to trust nothing."""

from datetime import timedelta
from functools import partial
from pathlib import Path

import pytest

from domain.gate.issued_paper import IssuedPaper
from domain.log.upkeep import Concern, Condition
from storage.sqlite_job_log import SqliteJobLog
from storage.upkeep.proved_at_issue import prove_issued
from storage.upkeep.proved_before import PROVED
from storage.upkeep.sqlite_upkeep import SqliteUpkeep
from tests.builders import AT, INSPECTOR, complete_minor_works, enter
from tests.storage.issuing import LATER, WHO, bind, issued_in
from tests.storage.upkeep.test_tending import NOW, altered
from tui.commands.progress import Progress

JOBS = 5
DAY = timedelta(days=1)


def tended(home: Path, **asked) -> tuple[Condition, int]:
    """What was found, and how many jobs were gone through."""
    heard: list[tuple[int, int]] = []
    condition = SqliteUpkeep(home).tend(at=NOW, told=lambda at, of: heard.append((at, of)), **asked)
    assert heard == [(at, len(heard)) for at in range(1, len(heard) + 1)]
    return condition, len(heard)


def test_jobs_that_were_proved_are_passed_over_until_one_is_edited(home):
    first, gone_through = tended(home)
    assert (first.well, first.proved_before, gone_through) == (True, 0, JOBS)
    again, gone_through = tended(home)
    assert (again.well, again.proved_before, gone_through) == (True, JOBS, 0)
    log = SqliteJobLog.open(home)
    log.edit("A-0005", enter("client", "name", "Bertram Quill"), who=WHO, at=LATER + 2 * DAY)
    log.close()
    assert tended(home)[1] == 1
    assert tended(home, anew=True)[1] == JOBS
    assert tended(home, since=LATER + DAY, anew=True)[1] == 1


@pytest.mark.parametrize(
    ("harm", "about"),
    [
        ("UPDATE job SET client = 'somebody else' WHERE number = 'A-0002'", Concern.LINES),
        ("UPDATE job_text SET place = 'elsewhere' WHERE id = 2", Concern.SEARCH),
        ("UPDATE draft SET body = replace(body, 'Quill', 'Quilt')", Concern.DRAFTS),
        ("UPDATE duty_job SET contact = '01632 960001' WHERE job_id = 2", Concern.LINES),
        (
            "INSERT INTO duty_day (job_id, duty, by, counted, kept) VALUES (2, 'duplicate kept', 730000, '', 1)",
            Concern.LINES,
        ),
        ("UPDATE duty_day SET done_who = 'nobody' WHERE job_id = 2", Concern.LINES),
        ("UPDATE issued SET issued_by = 'nobody' WHERE number = 'A-0002'", Concern.RECORDS),
        ("UPDATE edit SET what = 'nothing' WHERE job_id = 2 AND version = 2", Concern.TRAIL),
        (
            "UPDATE folded_trail SET edits = (SELECT edits FROM folded_trail WHERE job_id = 1) WHERE job_id = 2",
            Concern.TRAIL,
        ),
    ],
)
def test_what_is_altered_after_it_was_proved_is_told(home, harm, about):
    assert tended(home)[0].well
    altered(home, harm)
    assert about in {fault.about for fault in tended(home)[0].faults}


def test_what_is_wrong_is_told_every_time(home):
    altered(home, "UPDATE job SET client = 'somebody else' WHERE number = 'A-0002'")
    first, again = tended(home)[0], tended(home)[0]
    assert [fault.says for fault in first.faults] == [fault.says for fault in again.faults] != []
    assert again.proved_before == JOBS - 1


def test_marks_that_cannot_be_read_or_written_keep_nobody_from_looking(home):
    (home / PROVED).write_bytes(b"Dear diary, " * 500)
    (home / PROVED).chmod(0o600)
    assert tended(home)[0].well
    assert tended(home)[1] == JOBS


def test_a_look_that_was_stopped_goes_on_where_it_was(home, monkeypatch):
    monkeypatch.setattr("storage.upkeep.proved_before._AT_ONCE", 1)

    def stop(done: int, _of: int) -> None:
        if done == 3:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        SqliteUpkeep(home).tend(at=NOW, told=stop)
    assert tended(home)[1] == JOBS - 3


def test_how_far_it_is_is_said_every_other_second_and_not_at_once():
    now, said = [0.0], []
    progress = Progress("Jobs looked at", clock=lambda: now[0], say=said.append)
    for second in range(6):
        now[0] = second
        progress(second * 1000, 5000)
    assert said == ["Jobs looked at: 2,000 of 5,000", "Jobs looked at: 4,000 of 5,000"]


@pytest.mark.usefixtures("processes_part")
def test_many_jobs_are_looked_at_by_several_processes_and_come_to_the_same(home, monkeypatch):
    altered(home, "UPDATE job SET client = 'somebody else' WHERE number = 'A-0002'")
    altered(home, "UPDATE job_text SET place = 'elsewhere' WHERE id = 4")
    altered(home, "UPDATE draft SET body = replace(body, 'Quill', 'Quilt')")
    alone = tended(home, anew=True)
    monkeypatch.setattr("storage.upkeep.histories_at_once._FEWEST", 1)
    monkeypatch.setattr("storage.upkeep.histories_at_once._SHARE", 2)
    assert tended(home, anew=True) == alone
    (home / PROVED).unlink()
    assert tended(home) == alone
    monkeypatch.undo()
    assert tended(home)[0].proved_before == JOBS - 3


def issued_and_proved(home: Path, before: str = "") -> int:
    """A paper issued as the program issues it, after a draft beside it may have been altered; how many jobs tend goes through then."""
    log = SqliteJobLog.open(home)
    log.prove = partial(prove_issued, home)
    if before:
        log.create(complete_minor_works(), who=WHO, at=AT)
        altered(home, before)
        assert isinstance(log.issue("A-0001", by=INSPECTOR, at=LATER, bind=bind), IssuedPaper)
    else:
        issued_in(log)
    log.close()
    return tended(home)[1]


def test_a_job_is_proved_as_it_is_issued_and_not_gone_through_again_until_it_is_touched(tmp_path):
    assert issued_and_proved(tmp_path / "log") == 0
    assert tended(tmp_path / "log", anew=True)[1] == 1
    altered(tmp_path / "log", "UPDATE job_text SET place = 'elsewhere'")
    condition, gone_through = tended(tmp_path / "log")
    assert (condition.well, gone_through) == (False, 1)


def test_a_job_that_is_not_what_its_trail_gives_is_not_marked_when_it_is_issued(tmp_path):
    assert (
        issued_and_proved(tmp_path / "log", "UPDATE edit SET begun = replace(begun, 'Fairweather', 'Foulweather')") == 1
    )
    assert any("not what its trail gives" in fault.says for fault in tended(tmp_path / "log")[0].faults)


def test_a_folder_that_takes_no_marks_keeps_nobody_from_issuing(tmp_path):
    SqliteJobLog.open(tmp_path / "log").close()
    (tmp_path / "log" / PROVED).mkdir()
    assert issued_and_proved(tmp_path / "log") == 1
