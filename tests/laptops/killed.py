"""An office and two laptops on real logs, their programs killed at any moment of taking out, editing, issuing and meeting.

`python -m tests.laptops kills FOLDER 50 50` does so many in each firm and keeps what came of it in `KILLED.md`.
"""

import json
import os
import random
import signal
import time
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import timedelta
from pathlib import Path
from typing import Any, NamedTuple

from domain.editing.commands import Declined
from domain.gate.issued_paper import IssuedPaper
from domain.job.job import Job
from domain.log.job_log import JobLog, JobLogError, Query
from domain.log.laptops import Laptops
from storage.laptops.meeting import Meeting
from storage.sqlite_job_log import SqliteJobLog
from storage.upkeep.sqlite_upkeep import SqliteUpkeep
from tests.builders import AT, INSPECTOR, complete_minor_works, enter
from tests.storage.children import ended, forked
from tests.storage.issuing import LATER, WHO, bind, sign
from tests.storage.laptops.firms import SmallFirm

_LAPTOPS = ("HE", "MR")
_STATIONS = ("A", *_LAPTOPS)
_ACTS = {"edit": 10, "begin": 2, "issue": 2, "take out": 4, "bring back": 2, "exchange": 5}
_LONGEST = 0.08
"""Seconds after an answer, at most, at which a program is killed."""
_MEETINGS = 12


class Told(NamedTuple):
    """What programs said: what they had kept, and what they were about."""

    kept: list[tuple[str, ...]]
    killed_in: Counter[str]


def killed(folder: Path, kills: int) -> Iterator[str]:
    """The kills, then what is wrong; lines for people."""
    began, chance = time.monotonic(), random.Random(7671)
    shared = folder / "shared"
    shared.mkdir(parents=True)
    firm = SmallFirm(folder)
    firm.office.begin_seal_key(who=WHO, at=AT)
    for letters in _LAPTOPS:
        firm.buy(letters)
    firm.close()
    told = Told([], Counter())
    for turn in range(kills):
        _until_killed(folder, chance.choice(_STATIONS), turn, chance, told)
    _meet_until_nothing_is_new(folder)
    counts = Counter(act for act, *_ in told.kept)
    found = broken(folder, told.kept)
    yield (
        f"- {kills} programs killed by signal 9, {time.monotonic() - began:.0f} s; the act begun last was: "
        + ", ".join(f"{act} {times}" for act, times in told.killed_in.most_common())
    )
    yield "- acknowledged before: " + ", ".join(f"{act} {times}" for act, times in counts.most_common())
    yield f"- lost, twice, unlike or not whole: {len(found)}"
    yield from (f"  - {each}" for each in found[:50])


def broken(folder: Path, kept: list[tuple[str, ...]]) -> list[str]:
    """What was acknowledged and is not at the office, numbers and papers given twice, logs that differ or are not whole."""
    wrong, begun = list[str](), Counter(number for act, number, *_ in kept if act == "begin")
    wrong += [f"number twice: {number}" for number, times in begun.items() if times > 1]
    with closing(SqliteJobLog.open(folder / "A")) as office:
        trails = {each.number: [line.what for line in office.trail(each.number)] for each in _every(office)}
        for act, number, *rest in kept:
            if number not in trails:
                wrong.append(f"job lost: {number}")
            elif act == "edit" and not any(rest[0] in what for what in trails[number]):
                wrong.append(f"edit lost: {number} {rest[0]}")
            elif (act == "issue" and (paper := office.issued(number)) is None) or (
                act == "issue" and paper.sha256 != rest[0]
            ):
                wrong.append(f"paper lost, or another: {number}")
        jobs = {number: office.load(number) for number in trails}
        for number, what in trails.items():
            if what.count("Issued") > 1:
                wrong.append(f"issued twice: {number}")
    for letters in _LAPTOPS:
        with closing(SqliteJobLog.open(folder / letters)) as laptop:
            there = {each.number: laptop.load(each.number) for each in _every(laptop)}
            wrong += [
                f"{letters} has {number} otherwise" for number in {*jobs, *there} if not _alike(jobs, there, number)
            ]
            wrong += [
                f"{letters} tells {number} otherwise"
                for number in {*jobs} & {*there}
                if [line.what for line in laptop.trail(number)] != trails[number]
            ]
    for letters in _STATIONS:
        wrong += [f"{letters}: {fault.says}" for fault in SqliteUpkeep(folder / letters).tend(at=LATER).faults]
    return wrong


def _alike(jobs: dict[str, Job | None], there: dict[str, Job | None], number: str) -> bool:
    return number in jobs and number in there and jobs[number] == there[number]


def _every(log: JobLog) -> Iterator[Any]:
    before = ""
    while found := log.find(Query(limit=200, before=before)):
        yield from found
        before = found[-1].number


def _until_killed(folder: Path, letters: str, turn: int, chance: random.Random, told: Told) -> None:
    answers, tells = os.pipe()
    seed, after = chance.random(), chance.randint(1, 6)
    child = forked(lambda: _work(folder, letters, turn, random.Random(seed), tells))
    os.close(tells)
    heard = b""
    while heard.count(b'"kept"') < after and (more := os.read(answers, 4096)):
        heard += more
    time.sleep(chance.uniform(0, _LONGEST))
    os.kill(child, signal.SIGKILL)
    while more := os.read(answers, 4096):
        heard += more
    os.close(answers)
    assert ended(child) == -signal.SIGKILL
    lines = [json.loads(line) for line in heard.decode().splitlines() if line.endswith("]")]
    told.kept.extend(tuple(line[1:]) for line in lines if line[0] == "kept")
    told.killed_in[next((line[1] for line in reversed(lines) if line[0] == "begins"), "opening")] += 1


def _work(folder: Path, letters: str, turn: int, chance: random.Random, tells: int) -> None:
    """Do this and that without end; say what is begun, and what is kept once the log has said so."""

    def say(*words: str) -> None:
        os.write(tells, json.dumps(words).encode() + b"\n")

    log = SqliteJobLog.open(folder / letters)
    firm = log.firm
    assert firm is not None
    for count in range(100_000):
        act = chance.choices([*_ACTS], [*_ACTS.values()])[0]
        say("begins", act)
        if act == "exchange":
            Meeting(folder / letters, log).in_folder(folder / "shared", at=AT + timedelta(hours=turn))
            say("kept?", act)
            continue
        numbers = [each.number for each in _every(log)]
        if act == "begin" or not numbers:
            say("kept", "begin", log.create(complete_minor_works(), who=WHO, at=AT).number)
            continue
        _DOES[act](log, firm, chance.choice(numbers), f"w{turn} {count}.", chance, say)


def _edit(log: JobLog, _: Laptops, number: str, text: str, chance: random.Random, say: Callable[..., None]) -> None:
    if not isinstance(log.edit(number, enter("client", "contact", text), who=WHO, at=AT), Declined):
        say("kept", "edit", number, text)


def _issue(log: JobLog, _: Laptops, number: str, text: str, chance: random.Random, say: Callable[..., None]) -> None:
    sign(log, number)
    if log.issued(number):
        return
    paper = log.issue(number, by=INSPECTOR, at=LATER, bind=bind, earlier=True)
    if isinstance(paper, IssuedPaper):
        say("kept", "issue", number, paper.sha256)


def _take_out(
    log: JobLog, firm: Laptops, number: str, text: str, chance: random.Random, say: Callable[..., None]
) -> None:
    try:
        firm.take_out(number, to=chance.choice(_LAPTOPS) if firm.own and firm.own.is_office else "", at=AT)
    except JobLogError:
        # It is out with another.
        return


def _bring_back(
    log: JobLog, firm: Laptops, number: str, text: str, chance: random.Random, say: Callable[..., None]
) -> None:
    if out := () if firm.own and firm.own.is_office else firm.out():
        firm.bring_back(chance.choice(out), at=AT)


_DOES = {"edit": _edit, "issue": _issue, "take out": _take_out, "bring back": _bring_back}


def _meet_until_nothing_is_new(folder: Path) -> None:
    for _ in range(_MEETINGS):
        new = 0
        for letters in (*_LAPTOPS, "A", *_LAPTOPS):
            with closing(SqliteJobLog.open(folder / letters)) as log:
                new += sum(met.new for met in Meeting(folder / letters, log).in_folder(folder / "shared", at=LATER))
        if not new:
            return
