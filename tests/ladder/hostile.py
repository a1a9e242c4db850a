"""Files made or marred at random, given to every command that reads a stranger's file: one sentence, and nothing written."""

import json
import random
import re
import shutil
import tempfile
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

from domain.log.upkeep import Concern
from storage.driver import sqlite3
from storage.sqlite_job_log import SqliteJobLog
from storage.upkeep.sqlite_upkeep import SqliteUpkeep
from tests import nursery
from tests.builders import AT, complete_certificate
from tests.parting import PARTING
from tests.storage.issuing import WHO
from tests.storage.upkeep.conftest import begin_real_log
from tests.tui.commands.command_line import Said, ohmfolio

_TOLD_EVERY = 100
_STRANGE: tuple[Any, ...] = (
    *(
        None,
        True,
        -1,
        0,
        10**30,
        1e308,
        "",
        " ",
        "\x00",
        "\x1b]0;x\x07",
        "../../x",
        "A-0001",
        "x" * 5000,
        "‮",
        "9999-12-31",
    ),
    *([], {}, [[]], {"a": {}}, "0001-01-01T00:00:00-23:59", "\ud800"),
)
SQL = (
    "UPDATE issued SET number = '../x' WHERE seq = 1",
    "UPDATE job SET number = '/tmp/x' WHERE id = 5",
    "UPDATE paper SET number = '../../x' WHERE number = 'A-0001'",
    "INSERT INTO paper VALUES ('../x', x'00')",
    "CREATE TRIGGER mine AFTER UPDATE ON device BEGIN DELETE FROM note; END",
    "DROP TRIGGER issued_stays_on_update",
    "CREATE VIEW extra AS SELECT 1",
    "UPDATE issued SET body = replace(CAST(body AS TEXT), 'Fairweather', 'Foulweather')",
    "UPDATE draft SET body = '{}'",
    "UPDATE draft SET body = replace(body, '0.49', '9.49')",
    "DELETE FROM ledger WHERE seq = 5",
    "DELETE FROM issued",
    "UPDATE register SET body = '[]'",
    "UPDATE device SET prefix = '../'",
    "UPDATE edit SET at = 9223372036854775807",
    "UPDATE issued SET issued_at = -9223372036854775808",
    "PRAGMA user_version = 1",
    "PRAGMA application_id = 1",
    "UPDATE job SET due = 999999999",
    "UPDATE note SET text = x'ff'",
)


class _Given:
    """What is marred, and where the log is that nothing may be done to."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.home = begin_real_log(folder / "log")
        log = SqliteJobLog.open(self.home)
        self.number = log.create(complete_certificate(sign=False), who=WHO, at=AT).number
        self.head = log.chain_head()
        log.close()
        self.job = json.loads(complete_certificate().model_dump_json())
        self.pdf = (self.home / "issued" / "A-0002.pdf").read_bytes()
        copy = SqliteUpkeep(self.home).back_up(str(folder / "copy.ohmfolio"))
        self.copy = Path(copy.path).read_bytes()
        self.table = b"Way;R1+R2;Zs\n1;0,31;0.49\n2;0,3;0.5\n"

    def head_now(self) -> str:
        log = SqliteJobLog.open(self.home)
        now = log.chain_head()
        log.close()
        return now


def marred(content: bytes, chance: random.Random) -> bytes:
    """Bytes turned, cut, doubled, put in or taken from elsewhere, a few times."""
    for _ in range(chance.choice((1, 1, 2, 5, 20))):
        at, to = sorted(chance.randrange(len(content) + 1) for _ in "ab")
        put = chance.choice(
            (b"", chance.randbytes(chance.choice((1, 4, 64))), content[at : at + 500], b"\0" * 9, b"\xff")
        )
        content = chance.choice((content[:at] + put + content[at + len(put) :], content[:at] + put + content[to:]))
        content = content if len(content) > 8 else b"a job log, surely"
    return content


def _strange_document(job: Any, chance: random.Random) -> bytes:
    held = json.loads(json.dumps(job))
    for _ in range(chance.choice((1, 1, 3))):
        at: Any = held
        while True:
            keys = list(at) if isinstance(at, dict) else list(range(len(at)))
            key = chance.choice(keys) if keys else None
            if key is None or not isinstance(at[key], dict | list) or not at[key] or chance.random() < 0.3:
                break
            at = at[key]
        if key is not None:
            at[key] = chance.choice(_STRANGE)
        elif isinstance(at, dict):
            at[chance.choice(("", "\x1b[2J", "issued"))] = chance.choice(_STRANGE)
    return json.dumps(held, ensure_ascii=chance.random() < 0.5).encode(errors="surrogatepass")


def _brought_in(given: _Given, file: Path, chance: random.Random) -> tuple[Said, bool]:
    whole = json.dumps(given.job).encode()
    file.write_bytes(marred(whole, chance) if chance.random() < 0.4 else _strange_document(given.job, chance))
    home = given.folder / "into"
    said = ohmfolio("bring-in", file, home=home)
    written = home.exists()
    shutil.rmtree(home, ignore_errors=True)
    return said, said.code == 0 or not written


def _read_in(given: _Given, file: Path, chance: random.Random) -> tuple[Said, bool]:
    file.write_bytes(marred(given.table, chance))
    said = ohmfolio("read-in", file, given.number, "--columns", "number=Way; r1_r2=R1+R2; zs=Zs", home=given.home)
    now = given.head_now()
    unchanged, given.head = now == given.head, now
    return said, said.code == 0 or unchanged


def _verified(given: _Given, file: Path, chance: random.Random) -> tuple[Said, bool]:
    content = marred(given.pdf, chance)
    file.write_bytes(content)
    said = ohmfolio("verify", file, home=given.home)
    return said, said.code != 0 or content == given.pdf


def _restored(given: _Given, file: Path, chance: random.Random) -> tuple[Said, bool]:
    file.write_bytes(given.copy)
    if chance.random() < 0.5:
        with closing(sqlite3.connect(file, isolation_level=None)) as copy:
            for name, _ in copy.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall():
                if "stays" in name or "follows" in name:
                    copy.execute(f"DROP TRIGGER {name}")
            for statement in chance.sample(SQL, chance.choice((1, 2))):
                try:
                    copy.execute(statement)
                except sqlite3.Error:
                    continue
    else:
        file.write_bytes(marred(given.copy, chance))
    home = given.folder / "restored"
    said = ohmfolio("restore", file, home=home)
    faults = SqliteUpkeep(home).tend(at=AT).faults if said.code == 0 else ()
    # A paper that was marred in the copy is left out and named; the key stays where the log came from.
    came = all(
        each.about is Concern.KEY or (each.about is Concern.PAPERS and re.search(r"A-\d{4}", said.out))
        for each in faults
    )
    strays = [
        path for path in given.folder.iterdir() if path.name not in {"log", "copy.ohmfolio", "restored", "into", "it"}
    ]
    shutil.rmtree(home, ignore_errors=True)
    return said, came and not strays


_WAYS: tuple[tuple[str, int, Callable[[_Given, Path, random.Random], tuple[Said, bool]]], ...] = (
    ("bring-in", 5, _brought_in),
    ("read-in", 2, _read_in),
    ("verify", 1, _verified),
    ("restore", 2, _restored),
)
"""Of ten files, so many for each."""


def given_hostile(folder: Path, counts: list[int]) -> Iterator[str]:
    """Give so many files to the commands, after so many that are left out; a line for each that came out wrong, and the counts."""
    came, wrong, (many, *left_out) = Counter[str](), 0, counts
    first = sum(left_out)
    with nursery.in_use(PARTING), tempfile.TemporaryDirectory(dir=folder) as place:
        given, turns = _Given(Path(place)), [way for way in _WAYS for _ in range(way[1])]
        for turn in range(first, first + many):
            chance, (command, _, give) = random.Random(turn), turns[turn % len(turns)]
            said, is_well = give(given, Path(place) / "it", chance)
            came[f"{command}, exit {said.code}"] += 1
            is_sentence = said.code in {0, 1, 3} or (said.error.count("\n") == 1 and not said.out)
            if not is_well or said.code not in {0, 1, 2, 3} or not is_sentence or "Traceback" in said.error:
                wrong += 1
                yield f"- file {turn}, {command}: exit {said.code}, {said.error[-300:]!r}, left as it should be: {is_well}"
            if (turn + 1) % _TOLD_EVERY == 0:
                yield f"- files {first} to {turn}, {wrong} came out wrong: {_counted(came)}"
    yield f"- {sum(came.values()):,} files made or marred at random: {_counted(came)}"
    yield f"- {wrong} of them came out otherwise than in one sentence with nothing written"


def _counted(came: Counter[str]) -> str:
    return ", ".join(f"{what} {count:,}" for what, count in sorted(came.items()))
