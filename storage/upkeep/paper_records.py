"""Whether each issued paper was made from its record: what is attached to it is the record, byte for byte.

Papers lie beside the log, where anybody may have put others, so they are read in a process of its own.
"""

import hashlib
import json
from collections.abc import Collection, Iterator
from pathlib import Path

from domain.log.upkeep import Concern, LogFault, Unproven
from storage.child_process import BeyondLimitsError, ProcessLimits, asked
from storage.issued_papers import KEPT
from storage.log_file import LogFile
from storage.paper.seal import bears_mark
from storage.upkeep.whole_file import GO_BACK

_AT_ONCE = 200
_LIMITS = ProcessLimits(memory=1024, seconds=120, written=1)


def faults_of_paper_records(file: LogFile, proved: Collection[str] = ()) -> Iterator[LogFault | Unproven]:
    """Papers that are the ones that were issued, and hold another record than the log does; but for jobs proved before."""
    kept, after = file.home / KEPT, -1
    while rows := file.run(
        "SELECT seq, number, body, pdf_sha FROM issued WHERE seq > ? ORDER BY seq LIMIT ?", (after, _AT_ONCE)
    ):
        after = rows[-1][0]
        papers = [(number, kept / f"{number}.pdf", sha.hex()) for _, number, _, sha in rows if number not in proved]
        asked_of = [(number, str(path), sha) for number, path, sha in papers if _is_ours(path)]
        expected = {number: hashlib.sha256(body).hexdigest() for _, number, body, _ in rows}
        for number, held in (_held_by(asked_of) if asked_of else {}).items():
            if held == "?":
                yield Unproven(
                    job=number, says="its paper takes too much to read, so it was not held against its record"
                )
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
