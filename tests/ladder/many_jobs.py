"""Logs of many invented jobs, made in seconds: finished jobs of a few kinds, each with names and a place of its own.

The rows are written as the log writes them, past the domain: jobs made by commands would take a hundred times as long.
"""

import random
from contextlib import closing
from datetime import UTC, datetime, timedelta
from itertools import islice
from pathlib import Path
from typing import Any, NamedTuple

from domain.duties.duty_days import JobDuties, rules_version
from domain.editing.commands import Choose
from domain.forms.choice.answers import Answers
from domain.gate.assessment import Pack, issue
from domain.inspection.observation import Code
from domain.job.job import Job, canonical
from domain.log.chain import NO_RECORD, leaf, link
from domain.log.due_list import job_duties
from domain.log.log_line import line_of
from domain.log.spelling import heard_gaps_of
from domain.log.times import words_of_days
from domain.misspelling import may_be_misspelt
from storage.driver import Connection, sqlite3
from storage.duty_rows import DAY_COLUMNS, day_values
from storage.line_rows import line_values, microseconds
from storage.log_file import FILE_NAME, LogFile
from storage.rows import checksum
from storage.search import WHEN
from storage.search_text import text_values
from storage.sqlite_job_log import SqliteJobLog
from storage.vocabulary import is_listed
from storage.witnessing import WITNESS_TASK
from tests.builders import (
    AT,
    INSPECTOR,
    ON,
    complete_certificate,
    complete_minor_works,
    complete_report,
    done,
    enter,
    signed,
    snagged,
)
from tests.storage.ledger_anew import begin_anew

PEOPLE = ("tamsin", "rufus", "hetty", "bertram")
START = datetime(2016, 1, 4, 8, tzinfo=UTC)
_BATCH = 2_000
_FIRST = "bram cran dun el fen gris hol ing jor kel lan mor nes or pel quin rav sel tor umber ver wes yar"
_MIDDLE = "a e i o u an en el er ow ing ard ist om ul"
_LAST = "bury by cote dale fell field ford gate ham holt lea ley mere more side stead stock thorpe ton wick"
_SYLLABLES = tuple(part.split() for part in (_FIRST, _MIDDLE, _LAST))
_LET = {"done": "inspection", "nation": "England", "tenure": "private-let"}
_BOARD = {"done": "board", "own_work": True, "nation": "England", "building": "house", "registered": "registered"}
_COLUMNS = "number, version, client, premises, form_set, state, outcome, open_snags, updated, due, put_right, day"


class Kind(NamedTuple):
    """A job that many are made like; the words in capitals give way to others."""

    body: str
    begun: str
    line: dict[str, Any]
    words: dict[str, str]
    issued: bool
    owed: JobDuties


def fill(home: Path, count: int, *, seed: int = 7671) -> None:
    """Make a log of so many jobs in a new folder: four of five issued, the newest drafts, one of twenty snagged."""
    SqliteJobLog.open(home).close()
    with closing(sqlite3.connect(home / FILE_NAME, isolation_level=None)) as connection:
        connection.execute("PRAGMA synchronous = OFF")
        connection.execute("PRAGMA cache_size = -200000")
        guards = connection.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
        for name, _ in guards:
            connection.execute(f"DROP TRIGGER {name}")
        words = _write_jobs(connection, count, random.Random(seed))
        _write_words(connection, words)
        connection.execute("INSERT INTO job_fts (job_fts) VALUES ('rebuild')")
        connection.execute("UPDATE device SET next_number = ?, next_op = ?", (count + 1, 2 * count + 2))
        connection.execute("BEGIN")
        begin_anew(LogFile(home, connection))
        connection.execute("COMMIT")
        for _, made in guards:
            connection.execute(made)
        connection.execute("INSERT OR IGNORE INTO duty_rules (version) VALUES (?)", (rules_version(),))
        connection.execute("INSERT INTO pending_task (name) VALUES (?)", (WITNESS_TASK,))
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")


def word(chance: random.Random) -> str:
    """An invented word, such as names of people, roads and places are made of; there are nearly seven thousand."""
    return "".join(chance.choice(part) for part in _SYLLABLES)


def _write_jobs(connection: Connection, count: int, chance: random.Random) -> set[str]:
    kinds, held, chain = _kinds(), set[str](), NO_RECORD
    paper = bytes(32)
    ((device,),) = connection.execute("SELECT id FROM device").fetchall()
    step = timedelta(days=3650) / count
    numbers = iter(range(1, count + 1))
    while batch := list(islice(numbers, _BATCH)):
        jobs, texts, drafts, issues, edits, hands, days, asking = [], [], [], [], [], [], [], []
        for job_id in batch:
            issued = job_id <= count * 0.8
            kind = chance.choice([kind for kind in kinds if kind.issued is issued])
            number, at = f"A-{job_id:04d}", microseconds(START + step * job_id)
            swap = _swaps(number, chance)
            line = kind.line | {"number": number, "updated": at}
            line |= {name: _swapped(kind.line[name], swap) for name in ("client", "premises")}
            jobs.append(line | {"version": 2 if issued else 1})
            words = {name: _swapped(text, swap) for name, text in kind.words.items()}
            held.update(*(text.split() for text in words.values()))
            texts.append((job_id, *words.values()))
            body = _swapped(kind.body, swap)
            # Each was done on a day of its own, so what it asks for is due so long after that day.
            later = (START + step * job_id).date() - ON
            days += [(job_id, *day_values(day._replace(by=day.by + later))) for day in kind.owed.days]
            asking.append((job_id, kind.owed.asks, kind.owed.contact))
            who = chance.choice(PEOPLE)
            edits.append((f"{device}:{2 * job_id}", job_id, 1, at, who, "Begun", _swapped(kind.begun, swap)))
            hands.append((job_id, who, at))
            if issued:
                record = leaf(body.encode())
                chain = link(chain, record, paper)
                issues.append((job_id, number, body.encode(), record, chain, paper, 9, who, at))
                edits.append((f"{device}:{2 * job_id + 1}", job_id, 2, at, who, "Issued", None))
            else:
                drafts.append((job_id, body, checksum(body)))
        connection.execute("BEGIN")
        columns = ", ".join(f":{name.strip()}" for name in _COLUMNS.split(","))
        connection.executemany(f"INSERT INTO job ({_COLUMNS}) VALUES ({columns})", jobs)
        connection.executemany("INSERT INTO job_text (id, client, place, other, facets) VALUES (?, ?, ?, ?, ?)", texts)
        connection.executemany("INSERT INTO draft (job_id, body, crc) VALUES (?, ?, ?)", drafts)
        connection.executemany(
            "INSERT INTO issued (job_id, number, body, sha, chain, pdf_sha, pages, issued_by, issued_at)"
            " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
            issues,
        )
        connection.executemany(
            "INSERT INTO edit (op, job_id, version, at, who, what, begun) VALUES (?, ?, ?, ?, ?, ?, ?)", edits
        )
        places = ", ".join("?" * (1 + len(DAY_COLUMNS.split(","))))
        connection.executemany(f"INSERT INTO duty_day (job_id, {DAY_COLUMNS}) VALUES ({places})", days)
        connection.executemany("INSERT INTO duty_job (job_id, asks, contact) VALUES (?, ?, ?)", asking)
        connection.executemany("INSERT INTO hand (job_id, who, updated) VALUES (?, ?, ?)", hands)
        connection.execute("COMMIT")
    return held


def _write_words(connection: Connection, words: set[str]) -> None:
    known = sorted(word for word in words if is_listed(word))
    connection.execute("BEGIN")
    connection.executemany("INSERT OR IGNORE INTO term (word) VALUES (?)", [(word,) for word in known])
    gaps = ((gap, word) for word in known if may_be_misspelt(word) for gap in heard_gaps_of(word))
    connection.executemany("INSERT OR IGNORE INTO near (gap, word) VALUES (?, ?)", gaps)
    connection.execute("COMMIT")


def _kinds() -> list[Kind]:
    let, board = Answers.model_validate(_LET), Answers.model_validate(_BOARD)
    as_made = [
        _answered(complete_certificate(), board),
        complete_minor_works(),
        _answered(complete_report(), let),
        _answered(complete_report(Code.C2), let),
    ]
    drafts = [*as_made, snagged(complete_certificate()), snagged(complete_minor_works(sign=False))]
    return [*(_kind(job, issued=True) for job in as_made), *(_kind(job, issued=False) for job in drafts)]


def _answered(job: Job, answers: Answers) -> Job:
    return signed(done(job, Choose(chosen=job.chosen.model_copy(update={"answers": answers}))))


def _kind(made: Job, *, issued: bool) -> Kind:
    job = made.model_copy(update={"number": "A-7777777"})
    named = (
        ("client", "name", "Qqfirst Qqlast"),
        ("client", "postcode", "ZZ9 9QQ"),
        ("premises", "address", "77 Qqroad Lane\nQqtown"),
        ("premises", "postcode", "ZZ7 7QQ"),
    )
    signatures = job.signatures
    job = done(job, *(enter(*each) for each in named)).model_copy(update={"signatures": ()})
    job = signed(job) if signatures else job
    if issued:
        passed = issue(job, by=INSPECTOR, at=AT, people=())
        assert isinstance(passed, Pack), passed
        job = passed.job
    line = line_of(job, updated=AT)
    begun = job.model_copy(update={"issued": None})
    owed = job_duties(job, (), is_out=False, put_right=False)
    return Kind(
        canonical(job).decode(), begun.model_dump_json(), line_values(line), text_values(job, line), issued, owed
    )


def _swaps(number: str, chance: random.Random) -> list[tuple[str, str]]:
    """What stands for the words of a kind in one job, in small letters and in capitals."""
    road, area = (
        f"{chance.randint(1, 199)} {word(chance)}",
        f"{chance.choice('BCDEGHKLMNPRSTW')}Q{chance.randint(1, 29)}",
    )
    swaps = [("7777777", number.removeprefix("A-")), ("qqfirst", word(chance)), ("qqlast", word(chance))]
    swaps += [("77 qqroad", road), ("qqtown", f"{chance.choice(_SYLLABLES[0])}{chance.choice(_SYLLABLES[2])}")]
    swaps += [(old.title(), new.title()) for old, new in swaps[1:]]
    days = words_of_days([ON]), words_of_days([START.date() + timedelta(days=chance.randrange(3650))])
    swaps += sorted(((f"{WHEN}{old}", f"{WHEN}{new}") for old, new in zip(*days, strict=True)), key=_longest_first)
    for old in ("zz9 9qq", "zz7 7qq"):
        inner = f"{chance.randint(1, 9)}{chance.choice('ABDEFGHJLN')}{chance.choice('PQRSTUWXYZ')}"
        new = f"{area} {inner}"
        swaps += [(old.upper(), new), (old, new.lower()), (old.replace(" ", ""), new.replace(" ", "").lower())]
    return swaps


def _longest_first(swap: tuple[str, str]) -> int:
    return -len(swap[0])


def _swapped(text: str, swaps: list[tuple[str, str]]) -> str:
    for old, new in swaps:
        text = text.replace(old, new)
    return text
