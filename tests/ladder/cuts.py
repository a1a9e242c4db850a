"""Power cuts played after: what reached the disk by the last sync stands, what was written since may be there or not.

A library told of each write, truncation and sync (`writes_told.c`); a cut is any moment between two of them. Of what was
not synced each write is kept or lost by chance, and the last one torn at 512 bytes. Disks that lie about syncs are not
played, nor is a cut that loses the name of a new file.
"""

import os
import random
import struct
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import NamedTuple

from domain.log.job_log import JobLogError
from storage.driver import sqlite3
from storage.log_file import FILE_NAME
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, enter
from tests.storage.test_nothing_is_lost import NUMBERS, WHO, begin_jobs

EDITS = 400
_TOLD = struct.Struct("=IIq112s")
_WRITE, _TRUNCATE, _SYNC = 1, 2, 3
_SECTOR = 512
_ACKNOWLEDGED = "acknowledged"


class Told(NamedTuple):
    """One thing that was done to a file."""

    what: int
    name: str
    at: int
    data: bytes


class Seen(NamedTuple):
    """What a cut left."""

    lost: int
    """Edits that were acknowledged and are not there."""
    damaged: bool


def cut_off(folder: Path, counts: list[int]) -> Iterator[str]:
    """So many cuts of the log as it is, and of one that does not wait for the disk, which must show losses."""
    for sync, says in (("FULL", "as shipped"), ("NORMAL", "not waiting for the disk, to show that this test can fail")):
        with tempfile.TemporaryDirectory(dir=folder) as scratch:
            seen = played(Path(scratch), counts[0], sync=sync)
        losing = sum(each.lost > 0 for each in seen)
        worst = max(each.lost for each in seen)
        yield (
            f"- {len(seen)} power cuts over {EDITS} edits, {says}: {losing} cuts lost acknowledged edits (worst {worst}),"
            f" {sum(each.damaged for each in seen)} left a damaged file"
        )
        if (losing > 0) is (sync == "FULL"):
            raise SystemExit("that is not as it must be")


def played(scratch: Path, cuts: int, *, sync: str, seed: int = 7671) -> list[Seen]:
    """What each of so many cuts at random moments left."""
    home = scratch / "log"
    begin_jobs(home)
    base = {FILE_NAME: (home / FILE_NAME).read_bytes()}
    told = _told(scratch, home, sync)
    chance = random.Random(seed)
    return [_seen(scratch / "cut", *_cut(base, told[: chance.randrange(1, len(told))], chance)) for _ in range(cuts)]


def edit_on(home: Path, sync: str) -> None:
    """Make edits, and tell of each once the log has said that it is kept; never closes the log."""
    log = SqliteJobLog.open(home)
    log._file.run(f"PRAGMA synchronous = {sync}")
    told = os.open(home / _ACKNOWLEDGED, os.O_RDWR | os.O_CREAT)
    for count in range(EDITS):
        log.edit(NUMBERS[count % 2], enter("report", "reason", f"typed {count} {'x' * (count % 90)}"), who=WHO, at=AT)
        os.pwrite(told, b".", count)
    os._exit(0)


def _told(scratch: Path, home: Path, sync: str) -> list[Told]:
    library, record = scratch / "told.so", scratch / "told"
    source = Path(__file__).with_name("writes_told.c")
    subprocess.run(["cc", "-shared", "-fPIC", "-O1", "-o", library, source, "-ldl"], check=True)
    program = f"from pathlib import Path; from tests.ladder.cuts import edit_on; edit_on(Path({str(home)!r}), {sync!r})"
    environment = {"LD_PRELOAD": str(library), "TOLD_OF": str(home), "TOLD_TO": str(record)}
    subprocess.run(
        [sys.executable, "-c", program], env=os.environ | environment, cwd=Path(__file__).parents[2], check=True
    )
    return list(_read(record.read_bytes()))


def _read(record: bytes) -> Iterator[Told]:
    at = 0
    while at < len(record):
        what, length, where, name = _TOLD.unpack_from(record, at)
        at += _TOLD.size
        yield Told(what, name.rstrip(b"\0").decode(), where, record[at : at + length])
        at += length


def _cut(base: dict[str, bytes], told: list[Told], chance: random.Random) -> tuple[dict[str, bytes], int]:
    """The files as a cut after these left them, and how many edits had been acknowledged by then."""
    files = {name: bytearray(content) for name, content in base.items()}
    waiting: dict[str, list[Told]] = {}
    acknowledged = 0
    for each in told:
        if each.name == _ACKNOWLEDGED:
            acknowledged += 1
        elif each.what != _SYNC:
            waiting.setdefault(each.name, []).append(each)
        else:
            for done in waiting.pop(each.name, []):
                _apply(files, done)
    for each in (each for several in waiting.values() for each in several):
        if chance.random() < 0.5:
            _apply(files, _torn(each, chance) if each is told[-1] else each)
    return {name: bytes(content) for name, content in files.items()}, acknowledged


def _torn(write: Told, chance: random.Random) -> Told:
    sectors = len(write.data) // _SECTOR
    return write._replace(data=write.data[: _SECTOR * chance.randint(0, sectors)])


def _apply(files: dict[str, bytearray], done: Told) -> None:
    content = files.setdefault(done.name, bytearray())
    end = done.at if done.what == _TRUNCATE else done.at + len(done.data)
    if done.what == _TRUNCATE:
        del content[end:]
    if len(content) < end:
        content.extend(bytes(end - len(content)))
    content[done.at : done.at + len(done.data)] = done.data


def _seen(home: Path, files: dict[str, bytes], acknowledged: int) -> Seen:
    for left in home.glob("*"):
        left.unlink()
    home.mkdir(exist_ok=True)
    for name, content in files.items():
        (home / name).write_bytes(content)
    try:
        log = SqliteJobLog.open(home)
        kept = sum(log.version(number) - 1 for number in NUMBERS)
        held = all(log.load(number) for number in NUMBERS)
        log.close()
        with closing(sqlite3.connect(home / FILE_NAME)) as connection:
            sound = connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    except JobLogError:
        return Seen(acknowledged, damaged=True)
    return Seen(max(0, acknowledged - kept), damaged=not (held and sound))
