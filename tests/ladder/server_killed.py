"""A server killed again and again while several programs edit and issue: what it acknowledged is there once, and no paper is half there."""

import json
import os
import platform
import random
import time
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from domain.editing.commands import RaiseSnag
from domain.gate.issued_paper import IssuedPaper
from domain.log.job_log import JobLogError, UnknownIfKeptError
from storage.postgres.postgres_job_log import PostgresJobLog
from storage.postgres.postgres_upkeep import PostgresUpkeep
from storage.postgres.server_address import ServerAddress
from tests.builders import AT, INSPECTOR, ON, complete_minor_works
from tests.ladder.office import SETTINGS
from tests.storage.children import ended, forked
from tests.storage.database_server import DatabaseServer, running
from tests.storage.issuing import LATER, WHO, bind

_TYPISTS, _ISSUERS = 6, 2
_PAPERS = 120
_AGAIN = 0.05
"""Seconds until who was told that something was not saved does it again."""


def server_killed(folder: Path, counts: list[int]) -> Iterator[str]:
    """So many edits, in the middle of which the server is killed so many times."""
    edits, kills = (*counts, 5)[:2]
    with running(SETTINGS) as server:
        ((version,),) = server.asked("SHOW server_version")
        yield f"{datetime.now(UTC):%Y-%m-%d}, {os.cpu_count()} cores, {platform.machine()}, PostgreSQL {version}."
        yield from _among(server, server.address("postgres"), edits, kills)


def _among(server: DatabaseServer, address: ServerAddress, edits: int, kills: int) -> Iterator[str]:
    log = PostgresJobLog.open(address)
    drafts = [log.create(complete_minor_works(), who=WHO, at=AT).number for _ in range(_TYPISTS // 2)]
    ready = [log.create(complete_minor_works(), who=WHO, at=AT).number for _ in range(_PAPERS)]
    log.close()
    hears, told = os.pipe()
    # Two at each draft, so that they wait for each other when the server goes.
    typists = [
        forked(lambda at=at: _type(address, drafts[at // 2], f"w{at}", -(-edits // _TYPISTS), told))
        for at in range(_TYPISTS)
    ]
    issuers = [forked(lambda at=at: _issue(address, ready[at::_ISSUERS], f"i{at}", told)) for at in range(_ISSUERS)]
    os.close(told)
    heard = _killing(server, hears, [*sorted(random.Random(7671).sample(range(edits // 10, edits), kills))])
    assert [ended(child) for child in (*typists, *issuers)] == [0] * (_TYPISTS + _ISSUERS)
    typed = [each["done"] for each in heard if each["is"] == "edit"]
    papers = [each["done"] for each in heard if each["is"] == "paper"]
    log = PostgresJobLog.open(address)
    kept = [snag.what for number in drafts for snag in log.load(number).snags]
    issued = [number for number in ready if isinstance(log.issued(number), IssuedPaper) and log.paper(number)]
    log.close()
    faults = PostgresUpkeep(address).tend(at=AT).faults
    told_of = {kind: sum(each[kind] for each in heard) for kind in ("refused", "unknown")}
    yield (
        f"- {len(typed):,} edits by {_TYPISTS} programs and {len(papers)} papers by {_ISSUERS}, the server killed by signal 9"
        f" {kills} times among them and started again: {len(set(typed) - set(kept))} acknowledged edits lost,"
        f" {len(kept) - len(set(kept))} kept twice, {len(set(papers) - set(issued))} acknowledged papers lost,"
        f" {len(faults)} faults found by tending (a paper half issued would be one)"
    )
    yield (
        f"- people were told {told_of['refused']} times that something was not saved, and {told_of['unknown']} times that"
        " it may have been; each did the same again by the same name until it was"
    )
    assert not faults
    assert set(typed) == set(kept)
    assert len(kept) == len(set(kept))
    assert set(papers) == set(issued) == set(ready)


def _killing(server: DatabaseServer, hears: int, at: list[int]) -> list[dict[str, Any]]:
    """All that the programs tell; the server is killed once so many edits were acknowledged."""
    heard: list[dict[str, Any]] = []
    acknowledged = 0
    with os.fdopen(hears) as lines:
        for line in lines:
            heard.append(json.loads(line))
            acknowledged += heard[-1]["is"] == "edit"
            if at and acknowledged >= at[0]:
                del at[0]
                server.kill()
                server.start()
    assert not at
    return heard


def _type(address: ServerAddress, number: str, who: str, edits: int, told: int) -> None:
    log = PostgresJobLog.open(address)
    for turn in range(edits):
        what = f"{who} {turn}"
        edit = RaiseSnag(what=what, by=who, on=ON)
        _until_done(told, "edit", what, lambda edit=edit, what=what: log.edit(number, edit, who=who, at=AT, op=what))
    log.close()


def _issue(address: ServerAddress, numbers: list[str], who: str, told: int) -> None:
    log = PostgresJobLog.open(address)
    for number in numbers:
        op = f"{who} {number}"
        _until_done(
            told,
            "paper",
            number,
            lambda number=number, op=op: log.issue(number, by=INSPECTOR, at=LATER, bind=bind, op=op),
        )
    log.close()


def _until_done(told: int, kind: str, done: str, do: Any) -> None:
    """Do it, and again after a moment as long as it is not known to be kept; then tell of it."""
    refused = unknown = 0
    while True:
        try:
            do()
            break
        except UnknownIfKeptError:
            unknown += 1
        except JobLogError:
            refused += 1
        time.sleep(_AGAIN)
    os.write(told, f"{json.dumps({'is': kind, 'done': done, 'refused': refused, 'unknown': unknown})}\n".encode())
