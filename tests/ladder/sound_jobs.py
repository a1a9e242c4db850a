"""Logs of many issued jobs that are sound: each passed the gate, has its trail, its line in the ledger, and a paper that holds its record.

A few jobs are made, edited, signed and issued as a person does it; the others are their rows over again, with a number, a client
and a road of their own, signed anew. What is written past the program is no forgery: `tend` has nothing to say of it.
"""

import hashlib
import random
from collections.abc import Iterator
from contextlib import closing
from multiprocessing import get_context
from pathlib import Path
from typing import Any, NamedTuple

from domain.editing.commands import Command
from domain.gate.issued_paper import IssuedPaper
from domain.inspection.observation import Code
from domain.job.job import Job, canonical, fingerprint
from domain.job.signature import Role
from domain.log.chain import NO_RECORD, entered, leaf, link
from domain.log.log_line import line_of
from domain.register.entries import Person
from storage.driver import Connection, sqlite3
from storage.issued_papers import KEPT
from storage.ledger import end_of
from storage.ledger_entries import EDIT, ISSUED, entry_of
from storage.log_file import FILE_NAME, LogFile
from storage.pdf import bind
from storage.search_text import text_values
from storage.sqlite_job_log import SqliteJobLog
from storage.trail_block import COLUMNS, EditRow, folded, unfolded
from storage.witness import WITNESS
from storage.witnessing import WITNESS_TASK
from tests.builders import AT, INSPECTOR, complete_certificate, complete_minor_works, complete_report, enter
from tests.ladder.listed_words import is_engineer, write_words
from tests.ladder.many_jobs import word
from tests.ladder.swapped_record import with_record
from tests.storage.issuing import LATER, WHO, sign

_CLIENT, _ROAD = "Qqfirst Qqlast", "77 Qqroad Lane"
_FIRST_NUMBER = 7_777_771
_BATCH = 500
_CLIENTS = 2_000


class _Kind(NamedTuple):
    """All that is kept of one job that was issued by the program, and its paper."""

    number: str
    fingerprint: str
    head: str
    """Of the log, that it was issued after."""
    record: str
    edits: list[EditRow]
    folded: int
    """So many of the edits are folded."""
    tables: dict[str, tuple[str, list[tuple[Any, ...]]]]
    """By table, its columns after the job's id, and the rows."""
    pages: int
    paper: bytes


class _Variant(NamedTuple):
    """What a job of a kind comes to for one client, under one number."""

    kind: _Kind
    number: str
    client: str
    premises: str
    words: tuple[str, ...]
    edits: list[EditRow]
    record: str


def fill_sound(home: Path, count: int, *, edits: int = 6, seed: int = 7671) -> None:
    """Make a log of so many issued jobs in a new folder, each with so many edits between its beginning and its signatures."""
    made = _made(home, edits)
    with closing(sqlite3.connect(home / FILE_NAME, isolation_level=None)) as log:
        log.execute("PRAGMA synchronous = OFF")
        kinds = [_kind(log, home, number) for number in made]
        guards = log.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
        for name, _ in guards:
            log.execute(f"DROP TRIGGER {name}")
        log.execute("BEGIN")
        for table in ("job", "job_text", "edit", "folded_trail", "issued", "duty_day", "duty_job", "hand", "left_off"):
            log.execute(f"DELETE FROM {table}")
        log.execute("DELETE FROM ledger WHERE kind NOT IN ('register', 'note')")
        _count_anew(log)
        log.execute("COMMIT")
        held = _write(log, home, kinds, count, seed)
        write_words(log, held)
        log.execute("INSERT INTO job_fts (job_fts) VALUES ('rebuild')")
        for _, sql in guards:
            log.execute(sql)
        log.execute("INSERT OR IGNORE INTO pending_task (name) VALUES (?)", (WITNESS_TASK,))
        log.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    for seen in home.glob(f"{WITNESS}*"):
        seen.unlink()


def _made(home: Path, edits: int) -> list[str]:
    log = SqliteJobLog.open(home)
    log.register(Person(name=INSPECTOR, signs=tuple(Role)), who=WHO, at=AT)
    log.close()
    with closing(sqlite3.connect(home / FILE_NAME, isolation_level=None)) as file:
        file.execute("UPDATE device SET next_number = ?", (_FIRST_NUMBER,))
    log = SqliteJobLog.open(home)
    numbers: list[str] = []
    for job in (complete_certificate(), complete_minor_works(), complete_report(), complete_report(Code.C2)):
        number = log.create(job, who=WHO, at=AT).number
        for command in _typed(edits):
            log.edit(number, command, who=WHO, at=AT)
        sign(log, number)
        issued = log.issue(number, by=INSPECTOR, at=LATER, bind=bind)
        assert isinstance(issued, IssuedPaper), issued
        numbers.append(number)
    log.close()
    return numbers


def _typed(edits: int) -> Iterator[Command]:
    """A name and a road last; before them what was typed and corrected."""
    for turn in range(edits - 2):
        yield enter("client", "contact", f"0{1_632_960_000 + turn}")
    yield enter("client", "name", _CLIENT)
    yield enter("premises", "address", f"{_ROAD}\nWetherham")


def _kind(log: Connection, home: Path, number: str) -> _Kind:
    ((job_id, record, pages),) = log.execute(
        "SELECT job_id, body, pages FROM issued WHERE number = ?", (number,)
    ).fetchall()
    blocks = log.execute("SELECT edits FROM folded_trail WHERE job_id = ?", (job_id,)).fetchall()
    before = unfolded(blocks[0][0], number)
    after = log.execute(f"SELECT {COLUMNS} FROM edit WHERE job_id = ? ORDER BY version", (job_id,)).fetchall()
    tables = {
        table: _rows_of(log, table, key, job_id)
        for table, key in (("job", "id"), ("duty_day", "job_id"), ("duty_job", "job_id"), ("hand", "job_id"))
    }
    job = Job.model_validate_json(record)
    assert job.issued
    paper = (home / KEPT / f"{number}.pdf").read_bytes()
    (home / KEPT / f"{number}.pdf").unlink()
    rows = [*before, *(EditRow._make(row) for row in after)]
    return _Kind(number, fingerprint(job), job.issued.head, record.decode(), rows, len(before), tables, pages, paper)


def _rows_of(log: Connection, table: str, key: str, job_id: int) -> tuple[str, list[tuple[Any, ...]]]:
    columns = [name for _, name, *_ in log.execute(f"PRAGMA table_info({table})").fetchall() if name != key]
    listed = ", ".join(columns)
    return listed, log.execute(f"SELECT {listed} FROM {table} WHERE {key} = ?", (job_id,)).fetchall()


def _count_anew(log: Connection) -> None:
    """The lines of the ledger that are left, chained to each other."""
    left = log.execute("SELECT kind, row, about, sha FROM ledger ORDER BY seq").fetchall()
    log.execute("DELETE FROM ledger")
    head = NO_RECORD
    for seq, (kind, row, about, sha) in enumerate(left, 1):
        head = entered(head, sha)
        log.execute("INSERT INTO ledger VALUES (?, ?, ?, ?, ?, ?)", (seq, kind, row, about, sha, head))


_kinds: list[_Kind] = []


def _client(asked: tuple[int, int]) -> _Variant:
    """One more client with a road; a job is signed anew for it, since its signatures were given for another."""
    which, seed = asked
    kind, chance = _kinds[which], random.Random(seed)
    name = f"{word(chance).title()} {word(chance).title()}"
    road = f"{chance.randint(1, 199)} {word(chance).title()} Lane"
    swaps = [(_CLIENT, name), (_ROAD, road)]
    job = Job.model_validate_json(_swapped(kind.record, swaps))
    swaps.append((kind.fingerprint, fingerprint(job)))
    job = Job.model_validate_json(_swapped(kind.record, swaps))
    assert job.issued
    line = line_of(job, updated=job.issued.at)
    edits = [_with_texts(row, swaps) for row in kind.edits]
    words = tuple(text_values(job, line).values())
    return _Variant(kind, kind.number, line.client, line.premises, words, edits, canonical(job).decode())


def _numbered(variant: _Variant, at: int) -> _Variant:
    """The same job under another number, which no signature is over."""
    swaps = [(variant.number.removeprefix("A-"), number := f"{at:04d}")]
    record = _swapped(variant.record, swaps)
    words = tuple(_swapped(text, swaps) for text in variant.words)
    if any(number in text.split() for text in variant.words):
        # It is a word of the job besides, a year say, and each word is kept once.
        job = Job.model_validate_json(record)
        assert job.issued
        words = tuple(text_values(job, line_of(job, updated=job.issued.at)).values())
    return variant._replace(
        number=_swapped(variant.number, swaps),
        words=words,
        edits=[_with_texts(row, swaps) for row in variant.edits],
        record=record,
    )


def _with_texts(row: EditRow, swaps: list[tuple[str, str]]) -> EditRow:
    texts = {name: _swapped(value, swaps) for name, value in row._asdict().items() if isinstance(value, str)}
    return row._replace(**texts)


def _swapped(text: str, swaps: list[tuple[str, str]]) -> str:
    for old, new in swaps:
        text = text.replace(old, new)
    return text


def _write(log: Connection, home: Path, kinds: list[_Kind], count: int, seed: int) -> set[str]:
    """Write them in order, and give the words they are found by."""
    chance, held = random.Random(seed), set[str]()
    _kinds[:] = kinds
    asked = [(chance.randrange(len(kinds)), seed * 1_000_003 + at) for at in range(min(count, _CLIENTS))]
    with get_context("fork").Pool() as pool:
        clients = pool.map(_client, asked, chunksize=20)
    writing = _Writing(log, home)
    log.execute("BEGIN")
    for at in range(1, count + 1):
        job = _numbered(chance.choice(clients), at)
        writing.write(at, job)
        held.update(*(text.split() for text in job.words[:-1]), filter(is_engineer, job.words[-1].split()))
        if at % _BATCH == 0:
            log.execute("COMMIT")
            log.execute("BEGIN")
    log.execute("UPDATE device SET next_number = ?, next_op = ? WHERE is_here = 1", (count + 1, writing.edits + 1))
    log.execute("COMMIT")
    return held


class _Writing:
    """How far a log is that is written job by job."""

    def __init__(self, log: Connection, home: Path) -> None:
        self._log = log
        self._home = home
        ((self._device,),) = log.execute("SELECT id FROM device WHERE is_here = 1").fetchall()
        self._seq, self._head = end_of(LogFile(home, log))
        self._chain = NO_RECORD
        self._entered: list[tuple[Any, ...]] = []
        self.edits = 0

    def write(self, job_id: int, job: _Variant) -> None:
        """One more job: its trail, its record with its paper, and a line in the ledger for each."""
        kind, number = job.kind, job.number
        rows = [
            row._replace(seq=self.edits + at, op=f"{self._device}:{self.edits + at}")
            for at, row in enumerate(job.edits, 1)
        ]
        self.edits += len(rows)
        *before, stamp = rows
        for row in before:
            self._enter(EDIT, row.seq, number, row.kept)
        record = job.record.replace(kind.head, self._head.hex()).encode()
        paper = with_record(kind.paper, record)
        path = self._home / KEPT / f"{number}.pdf"
        path.write_bytes(paper)
        path.chmod(0o600)
        sha, pdf_sha = leaf(record), hashlib.sha256(paper).digest()
        self._chain = link(self._chain, sha, pdf_sha)
        shas = tuple(each.hex().upper() for each in (sha, self._chain, pdf_sha))
        self._enter(ISSUED, job_id, number, (number, *shas, kind.pages, None, INSPECTOR, stamp.at))
        self._enter(EDIT, stamp.seq, number, stamp.kept)
        _write_one(self._log, kind, job_id, job, rows)
        self._log.execute(
            "INSERT INTO issued VALUES (?, ?, ?, ?, ?, ?, ?, ?, NULL, ?, ?)",
            (job_id, job_id, number, record, sha, self._chain, pdf_sha, kind.pages, INSPECTOR, stamp.at),
        )
        self._log.executemany("INSERT INTO ledger VALUES (?, ?, ?, ?, ?, ?)", self._entered)
        self._entered.clear()

    def _enter(self, kind: str, row: int, about: str, values: tuple[Any, ...]) -> None:
        entry = entry_of(kind, row, about, values)
        self._seq, self._head = self._seq + 1, entered(self._head, entry)
        self._entered.append((self._seq, kind, row, about, entry, self._head))


def _write_one(log: Connection, kind: _Kind, job_id: int, copy: _Variant, rows: list[EditRow]) -> None:
    for table, (columns, kept) in kind.tables.items():
        key = "id" if table == "job" else "job_id"
        names = columns.split(", ")
        own = {"number": copy.number, "client": copy.client, "premises": copy.premises} if table == "job" else {}
        for row in kept:
            values = [own.get(name, value) for name, value in zip(names, row, strict=True)]
            places = ", ".join("?" * (len(values) + 1))
            log.execute(f"INSERT INTO {table} ({key}, {columns}) VALUES ({places})", (job_id, *values))
    log.execute("INSERT INTO job_text VALUES (?, ?, ?, ?, ?)", (job_id, *copy.words))
    block = rows[: kind.folded]
    log.execute("INSERT INTO folded_trail VALUES (?, ?, ?, ?)", (job_id, block[0].op, len(block), folded(block)))
    for row in rows[kind.folded :]:
        places = ", ".join("?" * (len(row) + 1))
        log.execute(f"INSERT INTO edit (job_id, {COLUMNS}) VALUES ({places})", (job_id, *row))
