"""What was shown as saved is there, whatever ends the program and whoever else is writing."""

import os
import pty
import random
import signal
from concurrent.futures import ThreadPoolExecutor

import pytest

from domain.editing.commands import COMMAND, Enter
from domain.editing.reducer import apply
from domain.forms.form_set import FormSet
from domain.job.job import Job
from domain.place import Place
from storage.driver import sqlite3
from storage.log_file import FILE_NAME
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, enter, fresh
from tests.storage.children import ended, forked

WHO = "tamsin"
NUMBERS = ("A-0001", "A-0002")


def begin_jobs(home) -> None:
    log = SqliteJobLog.open(home)
    for _ in NUMBERS:
        log.create(fresh(FormSet.EICR), who=WHO, at=AT)
    log.close()


def write_and_acknowledge(home, writer: str, answers: int) -> None:
    """Edit both jobs without end; say each edit only once the log has said it is kept."""
    log = SqliteJobLog.open(home)
    for count in range(100_000):
        number = NUMBERS[count % 2]
        log.edit(number, enter("report", "reason", f"{writer} {count}"), who=writer, at=AT)
        os.write(answers, f"{number} {writer} {count}\n".encode())


def acknowledged_until_killed(home, writer: str, after: int) -> list[str]:
    """What a writer acknowledged before it was killed, some edits in."""
    answers, told = os.pipe()
    child = forked(lambda: write_and_acknowledge(home, writer, told))
    os.close(told)
    heard = b""
    while heard.count(b"\n") < after:
        heard += os.read(answers, 4096)
    os.kill(child, signal.SIGKILL)
    while more := os.read(answers, 4096):
        heard += more
    os.close(answers)
    assert ended(child) == -signal.SIGKILL
    return heard.decode().splitlines()


def acknowledged_until_hung_up(home, writer: str, after: int) -> list[str]:
    """What a writer showed on its terminal before that was closed, some edits in."""
    child, terminal = pty.fork()
    if not child:
        try:
            write_and_acknowledge(home, writer, 1)
        finally:
            os._exit(1)
    shown = b""
    while shown.count(b"\n") < after:
        shown += os.read(terminal, 4096)
    os.close(terminal)
    assert ended(child) in {-signal.SIGHUP, 1}
    whole = shown[: shown.rindex(b"\n")].decode().splitlines()
    return [line.strip() for line in whole]


def assert_kept(home, acknowledged: list[str]) -> None:
    log = SqliteJobLog.open(home)
    kept = {
        f"{number} {line.what.split(': ')[1].split(' (was')[0]}" for number in NUMBERS for line in log.trail(number)[1:]
    }
    assert [edit for edit in acknowledged if edit not in kept] == []
    for number in NUMBERS:
        assert log.load(number).report.reason == log.trail(number)[-1].what.split(": ")[1].split(" (was")[0]
    log.close()
    connection = sqlite3.connect(home / FILE_NAME)
    assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    connection.close()


def test_a_killed_program_loses_nothing_it_acknowledged(home):
    chance = random.Random(7671)
    begin_jobs(home)
    acknowledged: list[str] = []
    for writer in range(50):
        acknowledged += acknowledged_until_killed(home, f"w{writer}", chance.randint(1, 12))
    assert len(acknowledged) > 250
    assert_kept(home, acknowledged)


def test_a_closed_terminal_loses_nothing_that_was_shown(home):
    begin_jobs(home)
    assert_kept(home, acknowledged_until_hung_up(home, "w", 10))


def test_two_programs_writing_the_same_job_lose_nothing(home):
    begin_jobs(home)
    boxes = ("extent", "general_condition")

    def write(box: str) -> None:
        log = SqliteJobLog.open(home)
        for count in range(60):
            log.edit("A-0001", enter("report", box, f"{box} {count}"), who=box, at=AT)
        log.close()

    children = [forked(lambda box=box: write(box)) for box in boxes]
    assert [ended(child) for child in children] == [0, 0]
    log = SqliteJobLog.open(home)
    job, trail = log.load("A-0001"), log.trail("A-0001")
    assert [getattr(job.report, box) for box in boxes] == ["extent 59", "general_condition 59"]
    assert [sum(line.who == box for line in trail) for box in boxes] == [60, 60]
    log.close()


def test_threads_of_one_program_take_turns(sqlite_log):
    number = sqlite_log.create(fresh(FormSet.EICR), who=WHO, at=AT).number

    def write(box: str) -> None:
        for count in range(30):
            sqlite_log.edit(number, enter("report", box, str(count)), who=box, at=AT)
            sqlite_log.load(number)

    with ThreadPoolExecutor() as threads:
        list(threads.map(write, ("reason", "extent", "general_condition")))
    report = sqlite_log.load(number).report
    assert len(sqlite_log.trail(number)) == 91
    assert (report.reason, report.extent, report.general_condition) == ("29", "29", "29")


def test_programs_that_start_at_once_on_a_new_folder_share_one_log(home):
    def begin() -> None:
        log = SqliteJobLog.open(home)
        log.create(fresh(FormSet.EIC), who=WHO, at=AT)
        log.close()

    assert [ended(child) for child in [forked(begin) for _ in range(6)]] == [0] * 6
    log = SqliteJobLog.open(home)
    assert log.load("A-0006") is not None
    assert log.load("A-0007") is None
    log.close()


def test_the_trail_alone_gives_the_draft_again(sqlite_log, home):
    number = sqlite_log.create(fresh(FormSet.EIC), who=WHO, at=AT).number
    place = Place(section="boards", board="b1", circuit="c2", box="zs")
    for command in (enter("client", "name", "Zoë"), Enter(place=place, text="0.49"), Enter(place=place, text=">0,50")):
        sqlite_log.edit(number, command, who=WHO, at=AT)
    connection = sqlite3.connect(home / FILE_NAME)
    rows = connection.execute("SELECT command, begun FROM edit ORDER BY seq").fetchall()
    ops = connection.execute("SELECT DISTINCT op FROM edit").fetchall()
    connection.close()
    job = Job.model_validate_json(rows[0][1])
    for command, _ in rows[1:]:
        job = apply(job, COMMAND.validate_json(command))
    assert job == sqlite_log.load(number)
    assert len(ops) == 4


@pytest.mark.parametrize("name", ["ohmfolio.db", "ohmfolio.lock"])
def test_a_new_log_is_private_to_the_person(sqlite_log, home, name):
    assert (home / name).stat().st_mode & 0o777 == 0o600
    assert home.stat().st_mode & 0o777 == 0o700


def test_a_log_closed_twice_lets_go_of_nothing_else(home):
    log = SqliteJobLog.open(home)
    log.close()
    with (home / "note").open("w") as other:
        log.close()
        other.write("still open")
    assert (home / "note").read_text() == "still open"
