"""Files made by hand, one of each kind, given to the commands that read a stranger's file, each in a process of its own."""

import hashlib
import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any, NamedTuple

from domain.log.upkeep import Concern
from storage.upkeep.sqlite_upkeep import SqliteUpkeep
from tests.builders import AT, complete_certificate
from tests.ladder.crafted_copies import CRAFTED_COPIES
from tests.ladder.crafted_jobs import CRAFTED_JOBS
from tests.ladder.crafted_pdfs import CRAFTED_PDFS
from tests.storage.upkeep.conftest import begin_real_log

_ROOT = Path(__file__).parents[2]
_SECONDS, _MEGABYTES = 80, 2200
"""Of the processor, and of memory: what those processes may take that read for a command, and the command itself."""
_CODES = {"verify": {0, 1, 2, 3}, "bring-in": {0, 2}, "restore": {0, 2}}


class _Came(NamedTuple):
    """What a command came to."""

    code: int
    said: str
    error: str
    worked: float
    megabytes: float


def given_crafted(folder: Path, counts: list[int]) -> Iterator[str]:
    """Give every kind to its command, the first, second or third of them by its number; a line for each that came out wrong, and the counts."""
    wrong = 0
    with tempfile.TemporaryDirectory(dir=folder) as place:
        for command, kinds, model in (each for at, each in enumerate(_all(Path(place)), 1) if at in counts):
            came, most, worked = Counter[str](), 0.0, ("", 0.0)
            for name, put in kinds.items():
                done, left = _given(Path(place), command, lambda path, put=put, model=model: put(path, model))
                came[f"exit {done.code}"] += 1
                sys.stderr.write(f"{command}, {name}: exit {done.code}, {done.worked:.1f} s, {done.megabytes:.0f} MB\n")
                most, worked = max(most, done.megabytes), max(worked, (name, done.worked), key=lambda each: each[1])
                if says := _fault(command, done, left=left):
                    wrong += 1
                    yield f"- {command}, {name}: {says}; exit {done.code}, {done.error[-200:]!r}"
            counted = ", ".join(f"{code} {count}" for code, count in sorted(came.items()))
            yield (
                f"- {command}: {came.total()} files made by hand: {counted}; at most {worked[1]:.1f} s of the processor "
                f"({worked[0]}) and {most:.0f} MB"
            )
    yield f"- {wrong} of them came out otherwise than in one sentence, within the limits, with nothing written"


def _all(place: Path) -> Iterator[tuple[str, Mapping[str, Callable[..., object]], Any]]:
    home = begin_real_log(place / "log")
    copy = SqliteUpkeep(home).back_up(str(place / "copy.ohmfolio")).path
    yield "verify", CRAFTED_PDFS, (home / "issued" / "A-0002.pdf").read_bytes()
    yield "bring-in", CRAFTED_JOBS, complete_certificate().model_dump(mode="json")
    yield "restore", CRAFTED_COPIES, Path(copy).read_bytes()


def _given(place: Path, command: str, put: Callable[[Path], object]) -> tuple[_Came, str]:
    """What came of it, and what it left that it should not; "" for nothing."""
    given, into = place / "given", place / "into"
    given.mkdir()
    file = given / "it.json"
    put(file)
    home = place / "log" if command == "verify" else into
    before = _held(home)
    done = _run([command, str(file)], home)
    left = "" if (done.code == 0 and command != "verify") or _held(home) == before else "it wrote something"
    if command == "restore" and done.code == 0:
        faults = [each for each in SqliteUpkeep(into).tend(at=AT).faults if each.about is not Concern.KEY]
        left = " ".join(each.says for each in faults if each.about is not Concern.PAPERS or "missing" not in each.says)
    if strays := {path.name for path in place.iterdir()} - {"log", "copy.ohmfolio", "given", "into"}:
        left = f"it left {', '.join(strays)}"
    shutil.rmtree(given)
    shutil.rmtree(into, ignore_errors=True)
    return done, left


def _held(home: Path) -> dict[str, str]:
    if not home.exists():
        return {}
    files = (path for path in home.rglob("*") if path.is_file() and path.suffix not in {".db-shm", ".db-wal"})
    return {str(path): hashlib.sha256(path.read_bytes()).hexdigest() for path in files}


def _run(typed: list[str], home: Path) -> _Came:
    surroundings = os.environ | {"OHMFOLIO_HOME": str(home), "PYTHONPATH": str(_ROOT)}
    with tempfile.TemporaryFile() as out, tempfile.TemporaryFile() as error:
        began = time.monotonic()
        process = subprocess.Popen([sys.executable, "-P", "-m", "tui", *typed], env=surroundings, stdin=subprocess.DEVNULL, stdout=out, stderr=error)  # fmt: skip
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        said = [(stream.seek(0), stream.read(1 << 20).decode(errors="replace"))[1] for stream in (out, error)]
    assert time.monotonic() - began < 10 * _SECONDS
    return _Came(process.returncode, said[0], said[1], used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)


def _fault(command: str, done: _Came, *, left: str) -> str:
    """What is wrong with how a command took a file; "" for nothing."""
    if done.code not in _CODES[command] or "Traceback" in done.error + done.said:
        return "it broke"
    sentence = done.error.removesuffix("\n")
    if done.code == 2 and (done.said or not sentence.isprintable() or not 0 < len(sentence) <= 601):
        return "it was not refused in one sentence"
    if "\x1b" in done.said + done.error:
        return "it lets escape codes by"
    if done.worked > _SECONDS or done.megabytes > _MEGABYTES:
        return f"it took {done.worked:.0f} s and {done.megabytes:.0f} MB"
    return left
