"""An office and two laptops on real logs, their programs killed at any moment of taking out, editing, issuing and meeting.

Where the office is on a server, the process of it that answers is killed now and then, or the whole server. The program then goes
on, asking again by the same names. `python -m tests.laptops kills FOLDER` keeps what came of it in `KILLED.md`.
"""

import json
import os
import random
import secrets
import signal
import time
from collections import Counter
from collections.abc import Callable, Iterator
from datetime import timedelta
from functools import partial
from pathlib import Path
from typing import NamedTuple, TypeVar

from domain.editing.commands import Declined
from domain.gate.issued_paper import IssuedPaper
from domain.log.job_log import JobLogError
from domain.log.stored_log import StoredLog
from tests.builders import AT, INSPECTOR, complete_minor_works, enter
from tests.laptops.after_kills import Kept, broken
from tests.laptops.kill_firm import LAPTOPS, OFFICE, STATIONS, KillFirm, every, until_kept
from tests.storage.children import ended, forked
from tests.storage.database_server import DatabaseServer
from tests.storage.issuing import LATER, WHO, bind, sign

_ACTS = {"edit": 10, "begin": 2, "issue": 2, "take out": 4, "bring back": 2, "exchange": 5}
_LONGEST = 0.08
"""Seconds after an answer, at most, at which something is killed."""
_KILLED = {"a program": 6, "the server's process for a program": 2, "the whole server": 1}
Answer = TypeVar("Answer")


class Told(NamedTuple):
    """What programs said: what they had kept, what they were about; and what was killed."""

    kept: Kept
    killed_in: Counter[str]
    killed: Counter[str]


def killed(folder: Path, kills: int, server: DatabaseServer | None = None) -> Iterator[str]:
    """The kills, then what is wrong; lines for people."""
    began, chance = time.monotonic(), random.Random(7671)
    firm, told = KillFirm(folder, server), Told([], Counter(), Counter())
    while told.killed.total() < kills:
        _until_killed(firm, chance, told)
        yield f"  {told.killed.total()} killed, {time.monotonic() - began:.0f} s"
    firm.meet_until_nothing_is_new()
    acknowledged = Counter(act for act, *_ in told.kept)
    found = broken(firm, told.kept)
    where, took = "on a server" if server else "in a folder", f"{time.monotonic() - began:.0f} s"
    yield f"- office {where}: killed by signal 9, {_listed(told.killed)}; {took}"
    yield f"- the act begun last was: {_listed(told.killed_in)}"
    yield f"- acknowledged before: {_listed(acknowledged)}"
    yield f"- lost, twice, unlike or not whole: {len(found)}"
    yield from (f"  - {each}" for each in found[:50])


def _listed(counts: Counter[str]) -> str:
    return ", ".join(f"{what} {times}" for what, times in counts.most_common())


def _until_killed(firm: KillFirm, chance: random.Random, told: Told) -> None:
    letters, turn = chance.choice(STATIONS), told.killed.total()
    answers, tells = os.pipe()
    seed = chance.random()
    child = forked(lambda: _Program(firm, letters, turn, random.Random(seed), tells).work())
    os.close(tells)
    heard = _heard(answers, chance.randint(1, 6))
    time.sleep(chance.uniform(0, _LONGEST))
    what = chance.choices([*_KILLED], [*_KILLED.values()])[0] if firm.server and letters == OFFICE else "a program"
    if what != "a program":
        firm.kill_the_server() if what == "the whole server" else firm.kill_a_line()
        told.killed[what] += 1
        heard += _heard(answers, 2)
    os.kill(child, signal.SIGKILL)
    told.killed["a program"] += 1
    while more := os.read(answers, 65_536):
        heard += more
    os.close(answers)
    assert ended(child) == -signal.SIGKILL
    lines = [json.loads(line) for line in heard.decode().splitlines() if line.endswith("]")]
    told.kept.extend(tuple(line[1:]) for line in lines if line[0] == "kept")
    told.killed_in[next((line[1] for line in reversed(lines) if line[0] == "begins"), "opening")] += 1


def _heard(answers: int, kept: int) -> bytes:
    """What a program says until it has said so many times that something is kept, or has ended."""
    heard = b""
    while heard.count(b'"kept"') < kept and (more := os.read(answers, 4096)):
        heard += more
    return heard


class _Program:
    """Does this and that without end; says what it begins, and what is kept once the log has said so."""

    def __init__(self, firm: KillFirm, letters: str, turn: int, chance: random.Random, tells: int) -> None:
        self._firm, self._letters, self._turn, self._chance, self._tells = firm, letters, turn, chance, tells

    def work(self) -> None:
        """Until it is killed. Trouble with a folder is a fault, and ends it; with a server it asks again."""
        log = self._patiently(partial(self._firm.open, self._letters))
        for count in range(100_000):
            act = self._chance.choices([*_ACTS], [*_ACTS.values()])[0]
            self._say("begins", act)
            numbers = self._patiently(lambda: list(every(log)))
            if act == "exchange":
                at = AT + timedelta(hours=self._turn)
                self._patiently(lambda at=at: self._firm.meet(self._letters, log, at))
            elif act == "begin" or not numbers:
                self._begin(log)
            elif act in ("take out", "bring back"):
                self._lend(log, act, self._chance.choice(numbers))
            else:
                do = self._edit if act == "edit" else self._issue
                do(log, self._chance.choice(numbers), f"w{self._turn} {count}.")

    def _say(self, *words: str) -> None:
        os.write(self._tells, json.dumps(words).encode() + b"\n")

    def _patiently(self, ask: Callable[[], Answer]) -> Answer:
        return until_kept(ask, self._troubled)

    def _troubled(self, trouble: JobLogError) -> None:
        if not self._firm.server or self._letters != OFFICE:
            raise trouble
        self._say("trouble", str(trouble))

    def _begin(self, log: StoredLog) -> None:
        op = secrets.token_hex(8)
        job = self._patiently(lambda: log.create(complete_minor_works(), who=WHO, at=AT, op=op))
        self._say("kept", "begin", job.number)

    def _edit(self, log: StoredLog, number: str, text: str) -> None:
        op, command = secrets.token_hex(8), enter("client", "contact", text)
        if not isinstance(self._patiently(lambda: log.edit(number, command, who=WHO, at=AT, op=op)), Declined):
            self._say("kept", "edit", number, text)

    def _issue(self, log: StoredLog, number: str, _: str) -> None:
        op = secrets.token_hex(8)
        self._patiently(lambda: sign(log, number))
        if self._patiently(lambda: log.issued(number)):
            return
        paper = self._patiently(lambda: log.issue(number, by=INSPECTOR, at=LATER, bind=bind, earlier=True, op=op))
        if isinstance(paper, IssuedPaper):
            self._say("kept", "issue", number, paper.sha256)

    def _lend(self, log: StoredLog, act: str, number: str) -> None:
        laptops = log.firm
        assert laptops is not None
        try:
            if act == "take out":
                to = self._chance.choice(LAPTOPS) if self._letters == OFFICE else ""
                laptops.take_out(number, to=to, at=AT)
            elif out := () if self._letters == OFFICE else laptops.out():
                laptops.bring_back(self._chance.choice(out), at=AT)
        except JobLogError:
            # It is out with another, or the line broke.
            return
