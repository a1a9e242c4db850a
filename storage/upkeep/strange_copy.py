"""A copy of a log that anybody may have made: taken into the log's own folder and proved there, by a process of its own."""

import json
import os
from collections.abc import Callable, Iterator
from contextlib import closing
from functools import partial
from pathlib import Path

from pydantic import ValidationError

from domain.gate.held_again import held_again
from domain.job.job import Job, canonical
from domain.job.job_number import is_job_number, is_prefix
from domain.log.job_log import JobLogError
from domain.log.upkeep import CopyProof, LogFault
from storage.access import make_file
from storage.child_process import BeyondLimitsError, ProcessLimits, asked, tell_how_far
from storage.driver import Connection, sqlite3
from storage.duties import are_by_rules_of_today, write_duties_anew
from storage.errors import DamagedError
from storage.layout import needs_migrating
from storage.ledger import turn_of, vouches_for
from storage.ledger_entries import ISSUED
from storage.line_rows import microseconds
from storage.log_file import LogFile, transaction
from storage.reindex import write_lines_anew
from storage.set_by import set_by
from storage.upkeep.copy_file import PAPERS, opened, proved
from storage.upkeep.derived import (
    faults_of_registers,
    faults_of_what_was_kept,
    write_hands_anew,
    write_registers_anew,
)
from storage.upkeep.histories import faults_of_histories
from storage.upkeep.job_history import REBUILD
from storage.upkeep.jobs_sound import faults_of_trails, faults_of_words
from storage.upkeep.laptops_sound import faults_of_laptops
from storage.upkeep.people_then import PeopleThen
from storage.upkeep.proved_before import ProvedBefore
from storage.upkeep.records import faults_of_numbers
from storage.upkeep.whole_file import faults_of_layout, faults_of_references, faults_of_tasks

_NEVER_WRITTEN = (ArithmeticError, AssertionError, AttributeError, LookupError, RecursionError, TypeError, ValueError)
"""What comes of values that no look at a log reckons with."""
_MEGABYTE = 1024 * 1024
_SPARE, _SECONDS, _SECONDS_A_MEGABYTE = 64, 60, 10
"""Megabytes and seconds beyond what follows from the size of a copy, whose records all go through the gate."""
_PAGE = 200
_TOLD_MAX, _TOLD_EVERY = 5, 100
_SEARCH = "FTS5"
"""What newer libraries say of an index of words, which is made anew where it is not sound."""
_LOOKS = (
    faults_of_what_was_kept,
    faults_of_references,
    faults_of_numbers,
    faults_of_trails,
    faults_of_registers,
    faults_of_laptops,
    faults_of_tasks,
    faults_of_words,
)
"""What `tend` looks at besides; what it finds is refused, or made anew where it follows from the rest."""
_NAMES = (
    ("SELECT number FROM job", is_job_number),
    ("SELECT number FROM issued", is_job_number),
    ("SELECT replaces FROM issued WHERE replaces IS NOT NULL AND replaces <> ''", is_job_number),
    ("SELECT prefix FROM device", is_prefix),
)


def taken_in(copy: Path, part: Path, told: Callable[[int, int], object]) -> tuple[CopyProof, str]:
    """Have a copy written into a file of ours and proved there; JobLogError where it cannot be gone by.

    `told` hears how many jobs of how many are proved.

    With the proof comes what was wrong with all that is derived, in a sentence, where that had to be made anew; else "".

    From then on only that file is read: whatever becomes of the copy meanwhile, what is restored is what was proved.
    """
    size = (
        sum(path.stat().st_size for path in (copy, copy.with_name(f"{copy.name}-wal")) if path.is_file()) // _MEGABYTE
    )
    limits = ProcessLimits(memory=2048, seconds=_SECONDS + _SECONDS_A_MEGABYTE * size, written=size + _SPARE)
    os.close(make_file(part))
    try:
        answer = json.loads(asked(f"{__name__}:take_in", json.dumps([str(copy), str(part)]).encode(), limits, told))
    except BeyondLimitsError:
        raise JobLogError(
            f"{copy} takes more memory, time or room than a copy of its size does. Nothing has been changed."
        ) from None
    if fault := answer.get("fault"):
        if part.name in fault:
            # What SQLite says of the file of ours is of no use to whoever named the copy.
            fault = f"{copy} is no copy to go by: parts of it cannot be read. Nothing has been changed."
        raise (DamagedError if answer["is_damaged"] else JobLogError)(fault)
    return CopyProof.model_validate(answer["proof"]), answer["made_anew"]


def take_in(request: bytes) -> bytes:
    """Write a copy into a file and prove it there; the proof or the fault, in JSON."""
    copy, part = map(Path, json.loads(request))
    try:
        with opened(copy) as source, closing(sqlite3.connect(part, isolation_level=None)) as taken:
            taken.execute("PRAGMA synchronous = OFF")
            source.backup(taken)
            _bring_up_to_date(taken, copy)
        proof = proved(part, named=copy)
        with opened(part) as connection:
            for fault in _faults(LogFile(part, connection)):
                raise DamagedError(f"{copy} is no copy to go by: {fault} Nothing has been changed.")
        with closing(sqlite3.connect(part, isolation_level=None)) as taken:
            made_anew = _made_anew(LogFile(part, taken), taken, copy)
    except JobLogError as error:
        return json.dumps({"fault": str(error), "is_damaged": isinstance(error, DamagedError)}).encode()
    except sqlite3.Error:
        fault = f"{copy} is damaged, or no copy of a job log. Nothing has been changed."
        return json.dumps({"fault": fault, "is_damaged": True}).encode()
    except _NEVER_WRITTEN:
        fault = f"{copy} is no copy to go by: it holds what this program never writes. Nothing has been changed."
        return json.dumps({"fault": fault, "is_damaged": True}).encode()
    return json.dumps({"proof": proof.model_dump(mode="json"), "made_anew": made_anew}).encode()


def _made_anew(file: LogFile, taken: Connection, named: Path) -> str:
    """Have what is derived follow from the rest where it does not; what was wrong with it, in a sentence. DamagedError for all else."""
    derived: list[LogFault] = []
    looks = (partial(faults_of_histories, path=file.home, proved=ProvedBefore(None), told=_tell), *_LOOKS)
    for look in looks:
        found = [each for each in look(file) if isinstance(each, LogFault)]
        if kept := [each for each in found if each.do != REBUILD]:
            # Of one job more than one thing may be wrong, and the gate says more than the chain.
            told = " ".join(each.says for each in kept if each.jobs == kept[0].jobs)
            raise DamagedError(f"{named} is no copy to go by: {told} Nothing has been changed.")
        derived += found
    if not derived and _index_is_sound(file):
        if not are_by_rules_of_today(file):
            with transaction(taken):
                write_duties_anew(file)
        return ""
    with transaction(taken):
        write_lines_anew(file)
        write_registers_anew(file)
        write_hands_anew(file)
    says = [each.says for each in derived] or ["The search index did not hold what the jobs hold."]
    more = [f"And {len(says) - _TOLD_MAX} more."] if len(says) > _TOLD_MAX else []
    return " ".join((*says[:_TOLD_MAX], *more))


def _tell(done: int, of: int) -> None:
    if done % _TOLD_EVERY == 0 or done == of:
        tell_how_far(done, of)


def _index_is_sound(file: LogFile) -> bool:
    try:
        file.run("INSERT INTO job_fts (job_fts, rank) VALUES ('integrity-check', 1)")
    except JobLogError:
        return False
    return True


def _bring_up_to_date(taken: Connection, named: Path) -> None:
    """A copy of an older log, laid out as it was then, gets the layout of this program before it is proved."""
    if needs_migrating(taken, named):
        from storage.migrations import migrate

        file = LogFile(named, taken)
        for fault in faults_of_layout(file, besides=(PAPERS,)):
            raise DamagedError(f"{named} is no copy to go by: {fault.says} Nothing has been changed.")
        with transaction(taken):
            migrate(taken)


def _faults(file: LogFile) -> Iterator[str]:
    """What a log of ours never holds. The layout comes first: what else is asked runs through it."""
    yield from (fault.says for fault in faults_of_layout(file, besides=(PAPERS,)))
    # A copy of one's own is looked at quickly; here rows out of order, and indexes of another table's rows, count as well.
    if any(_SEARCH not in trouble for (trouble,) in file.run("PRAGMA integrity_check(5)") if trouble != "ok"):
        yield "its rows and their indexes do not hold together."
    for question, is_one in _NAMES:
        yield from (
            f"{row[0][:40]!r} is no number of this program." for row in file.run(question) if not is_one(row[0])
        )
    if file.run("SELECT 1 FROM sqlite_master WHERE name = 'paper'"):
        for (number,) in file.run("SELECT number FROM paper WHERE number NOT IN (SELECT number FROM issued)"):
            yield f"it holds a paper {number[:40]!r}, and nothing was issued as it."
    yield from _faults_of_drafts(file)
    yield from _faults_of_records(file)


def _faults_of_drafts(file: LogFile) -> Iterator[str]:
    after = 0
    while rows := file.run(
        "SELECT job_id, number, body FROM draft JOIN job ON job.id = job_id WHERE job_id > ? ORDER BY job_id LIMIT ?",
        (after, _PAGE),
    ):
        for _, number, body in rows:
            job = _job_in(body)
            if job is None or job.number != number or job.issued:
                yield f"the draft {number} is not one that this program wrote."
        after = rows[-1][0]


def _faults_of_records(file: LogFile) -> Iterator[str]:
    after, ours, people = 0, set_by(), PeopleThen(file)
    while rows := file.run(
        "SELECT seq, number, body, issued_by, issued_at FROM issued WHERE seq > ? ORDER BY seq LIMIT ?", (after, _PAGE)
    ):
        for seq, number, body, by, at in rows:
            job = _job_in(body)
            if job is None or job.number != number or job.issued is None or canonical(job) != body:
                yield f"the record of {number} is not one that this program wrote."
            elif (job.issued.by, microseconds(job.issued.at)) != (by, at):
                yield f"the record of {number} names another who issued it, or another day, than the log does."
            elif vouches_for(file, number):
                # Held against the gate with its trail, below.
                continue
            elif why := held_again(job, people.signers_of(job, turn_of(file, ISSUED, seq)), ours).why:
                yield f"{number} stands there as issued, and the gate never let it pass: {why}"
        after = rows[-1][0]


def _job_in(body: str | bytes) -> Job | None:
    try:
        return Job.model_validate_json(body)
    except ValidationError:
        return None
