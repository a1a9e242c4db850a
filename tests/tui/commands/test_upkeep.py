"""`tend`: the log looked after from the command line."""

import os
import pwd
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from storage.sqlite_job_log import SqliteJobLog
from tests.builders import complete_minor_works
from tests.storage.issuing import issued_in
from tests.tui.commands.command_line import ohmfolio, sentence_of, written


@pytest.fixture
def home(tmp_path: Path) -> Path:
    return tmp_path / "home"


def test_tend_says_well_then_what_is_wrong_then_that_it_cannot_look(home: Path, tmp_path: Path) -> None:
    assert "There is no job log" in sentence_of(ohmfolio("tend", home=home))
    assert not home.exists()
    ohmfolio("bring-in", written(complete_minor_works(), tmp_path / "job.json"), home=home)
    well = ohmfolio("tend", "--json", home=home)
    assert (well.code, well.value["well"], well.value["faults"]) == (0, True, [])
    head = ohmfolio("head", home=home).out.strip()
    assert well.value["proof"] == {"jobs": 1, "issued": 0, "head": head}
    (home / "ohmfolio.db").chmod(0o644)
    told = ohmfolio("tend", home=home)
    assert told.code == 1
    assert "✗ Open to people the log is not open to" in told.out
    assert "chmod -R go= " in told.out
    assert "no group" in sentence_of(ohmfolio("tend", "--share", "nobody-of-that-name", home=home))


def test_a_head_that_was_kept_elsewhere_is_known_to_its_log_and_to_no_other(home: Path, tmp_path: Path) -> None:
    assert "There is no job log" in sentence_of(ohmfolio("head", home=home))
    job = written(complete_minor_works(), tmp_path / "job.json")
    for folder in (home, tmp_path / "other"):
        ohmfolio("bring-in", job, home=folder)
    kept = ohmfolio("head", "--json", home=home).value["head"]
    ohmfolio("bring-in", job, home=home)
    assert ohmfolio("head", home=home).out.strip() != kept
    assert (ohmfolio("head", kept.upper(), home=home).code, ohmfolio("head", kept, home=tmp_path / "other").code) == (
        0,
        1,
    )
    assert "64 letters" in sentence_of(ohmfolio("head", "kept", home=home))


def test_who_changed_a_job_is_whom_the_system_knows_whatever_the_environment_says(home: Path, tmp_path: Path) -> None:
    job = written(complete_minor_works(), tmp_path / "job.json")
    ohmfolio("bring-in", job, home=home, LOGNAME="rufus", USER="rufus", LNAME="rufus", USERNAME="rufus")
    log = SqliteJobLog.open(home)
    assert {each.who for each in log.trail("A-0001")} == {pwd.getpwuid(os.getuid()).pw_name}
    log.close()


def test_a_copy_is_made_refused_over_a_file_and_gone_back_to(home: Path, tmp_path: Path) -> None:
    ohmfolio("bring-in", written(complete_minor_works(), tmp_path / "job.json"), home=home)
    copy = tmp_path / "copy.ohmfolio"
    made = ohmfolio("backup", copy, "--json", home=home)
    assert (made.code, made.value["path"], made.value["proof"]["jobs"]) == (0, str(copy), 1)
    assert "exists already" in sentence_of(ohmfolio("backup", copy, home=home))
    assert "OHMFOLIO_COPIES is 0" in sentence_of(ohmfolio("backup", home=home, OHMFOLIO_COPIES="0"))
    of_today = ohmfolio("backup", "--json", home=home)
    assert Path(of_today.value["path"]).parent == home / "copies"
    restored = ohmfolio("restore", copy, home=home)
    assert restored.code == 0
    assert "The log that was here is kept in" in restored.out
    assert "numbered from B-0001" in restored.out
    assert "There is no file" in sentence_of(ohmfolio("restore", tmp_path / "none", home=home))


def test_a_copy_whose_papers_were_exchanged_is_not_called_whole_and_the_papers_are_named(
    home: Path, tmp_path: Path
) -> None:
    log = SqliteJobLog.open(home)
    numbers = [issued_in(log).number, issued_in(log).number]
    log.close()
    copy = tmp_path / "copy.ohmfolio"
    assert ohmfolio("backup", copy, home=home).code == 0
    with closing(sqlite3.connect(copy)) as file, file:
        (first,), (second,) = file.execute("SELECT pdf FROM paper ORDER BY number").fetchall()
        file.executemany("UPDATE paper SET pdf = ? WHERE number = ?", zip((second, first), numbers, strict=True))
    told = ohmfolio("restore", copy, home=tmp_path / "elsewhere").out
    assert f"No paper that is the one issued was found for {', '.join(numbers)}" in told
    assert "proved whole" not in told


@pytest.mark.parametrize("command", [("find",), ("due",), ("tend",), ("head",)])
def test_where_papers_are_left_and_the_log_is_gone_nothing_says_that_none_was_begun(
    command: tuple[str, ...], home: Path
) -> None:
    (home / "issued").mkdir(parents=True)
    (home / "issued" / "A-0001.pdf").write_bytes(b"%PDF-1.7")
    told = sentence_of(ohmfolio(*command, home=home))
    assert "There was a job log" in told
    assert "ohmfolio restore COPY" in told
