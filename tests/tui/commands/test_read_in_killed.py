"""Readings from a file are all in the job or none of them, wherever the program that reads them in is killed."""

import shutil
import signal
from pathlib import Path

import pytest

from storage.sqlite_job_log import SqliteJobLog
from storage.upkeep.sqlite_upkeep import SqliteUpkeep
from tests.builders import AT, complete_certificate
from tests.storage.issuing import WHO
from tests.tui.commands.killed_at import dealings_of, ended_at

POINTS = 9
"""So many of its dealings with the log; `python -m tests.ladder read-in` kills at each."""


@pytest.fixture(scope="module")
def made(tmp_path_factory) -> Path:
    return begun_for_reading_in(tmp_path_factory.mktemp("made") / "log")


def begun_for_reading_in(home: Path) -> Path:
    """A log with a certificate in it, and a table of readings beside."""
    log = SqliteJobLog.open(home)
    log.create(complete_certificate(sign=False), who=WHO, at=AT)
    log.close()
    (home.parent / "readings.csv").write_text("Way;R1+R2;Zs\n1;0.31;0.51\n2;0.32;0.52\n")
    return home


def killed_in_reading_in(made: Path, home: Path, dealing: int) -> tuple[int, tuple[str, ...]]:
    """The exit code, and the readings that stand there after."""
    shutil.copytree(made, home)
    table = str(made.parent / "readings.csv")
    columns = ["--columns", "number=Way; r1_r2=R1+R2; zs=Zs", "--replace"]
    code = ended_at(dealing, ["read-in", table, "A-0001", *columns], home)
    log = SqliteJobLog.open(home)
    assert log.refuses() == ""
    job = log.load("A-0001")
    log.close()
    return code, tuple(text for each in job.boards[0].circuits[:2] for text in (each.r1_r2.typed, each.zs.typed))


def test_readings_are_all_there_or_none_wherever_the_program_is_killed(made, tmp_path):
    whole = killed_in_reading_in(made, tmp_path / "whole", 100_000)
    assert whole == (0, ("0.31", "0.51", "0.32", "0.52"))
    last = dealings_of(tmp_path / "whole") - 1
    points = [last * point // (POINTS - 1) for point in range(POINTS)]
    came = [killed_in_reading_in(made, tmp_path / f"at{dealing}", dealing) for dealing in points]
    assert {code for code, _ in came} == {-signal.SIGKILL}
    assert {stands for _, stands in came} == {came[0][1], whole[1]}
    assert came[0][1] != whole[1] == came[-1][1]
    assert SqliteUpkeep(tmp_path / f"at{points[POINTS // 2]}").tend(at=AT).well
