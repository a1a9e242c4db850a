"""Whether each issued paper was made from its record: what is attached to it is the record, byte for byte.

Papers lie beside the log, where anybody may have put others, so they are read in a process of its own.
"""

import hashlib
import json
import os
from collections import deque
from collections.abc import Collection, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path

from domain.log.upkeep import Concern, LogFault, Unproven
from storage.child_process import BeyondLimitsError, ProcessLimits, asked
from storage.issued_papers import KEPT
from storage.log_file import LogFile
from storage.paper.seal import bears_mark
from storage.upkeep.whole_file import GO_BACK

_ROWS = 100
_AT_ONCE = 500
"""Papers read by one process: it takes as long to start as sixty papers to read."""
_LIMITS = ProcessLimits(memory=1024, seconds=300, written=1)


def faults_of_paper_records(file: LogFile, proved: Collection[str] = ()) -> Iterator[LogFault | Unproven]:
    """Papers that are the ones that were issued, and hold another record than the log does; but for jobs proved before."""
    cores = len(os.sched_getaffinity(0))
    # A process is waited for on a thread; the file is read on this one, which is never far ahead of them.
    with ThreadPoolExecutor(cores) as pool:
        waiting = deque[tuple[dict[str, str], Future[dict[str, str]]]]()
        for expected, papers in _shares(file, proved):
            waiting.append((expected, pool.submit(_held_by, papers)))
            if len(waiting) > cores:
                yield from _faults_of(*waiting.popleft())
        while waiting:
            yield from _faults_of(*waiting.popleft())


def _shares(file: LogFile, proved: Collection[str]) -> Iterator[tuple[dict[str, str], list[tuple[str, str, str]]]]:
    """The digest of each record by its number, and the papers of these that say they are ours: as many as are read at once."""
    kept, after = file.home / KEPT, -1
    expected, papers = dict[str, str](), list[tuple[str, str, str]]()
    while rows := file.run(
        "SELECT seq, number, body, pdf_sha FROM issued WHERE seq > ? ORDER BY seq LIMIT ?", (after, _ROWS)
    ):
        after = rows[-1][0]
        for _, number, body, sha in rows:
            if number not in proved and _is_ours(path := kept / f"{number}.pdf"):
                expected[number] = hashlib.sha256(body).hexdigest()
                papers.append((number, str(path), sha.hex()))
        if len(papers) >= _AT_ONCE:
            yield expected, papers
            expected, papers = {}, []
    if papers:
        yield expected, papers


def _faults_of(expected: dict[str, str], asked_of: "Future[dict[str, str]]") -> Iterator[LogFault | Unproven]:
    for number, held in asked_of.result().items():
        if held == "?":
            yield Unproven(job=number, says="its paper takes too much to read, so it was not held against its record")
        elif held and held != expected[number]:
            says = f"The paper of {number} was not made from the record that the log holds of it."
            yield LogFault(about=Concern.RECORDS, says=says, do=GO_BACK, jobs=(number,))


def _is_ours(path: Path) -> bool:
    """It says so itself, somewhere among its bytes."""
    try:
        return bears_mark(path.read_bytes())
    except OSError:
        return False


def _held_by(papers: list[tuple[str, str, str]]) -> dict[str, str]:
    """The SHA-256 of what is attached to each; "" where there is nothing to hold against, "?" where it takes too much."""
    try:
        return json.loads(asked(f"{__name__}:read_records", json.dumps(papers).encode(), _LIMITS))
    except BeyondLimitsError:
        # One of them does it; the others are none the worse for it.
        if len(papers) == 1:
            return {papers[0][0]: "?"}
        middle = len(papers) // 2
        return _held_by(papers[:middle]) | _held_by(papers[middle:])


def read_records(request: bytes) -> bytes:
    """What is attached to each paper that is byte for byte the one issued, and bears our mark; in JSON."""
    from storage.paper.examining import attached_record

    held: dict[str, str] = {}
    for number, path, sha in json.loads(request):
        try:
            pdf = Path(path).read_bytes()
        except OSError:
            continue
        if hashlib.sha256(pdf).hexdigest() == sha:
            held[number] = hashlib.sha256(attached_record(pdf)).hexdigest()
    return json.dumps(held).encode()
