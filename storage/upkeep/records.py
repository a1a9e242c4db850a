"""Whether what was issued is still what was issued: records, their chain, and their papers."""

import hashlib
from collections.abc import Iterator
from pathlib import Path

from domain.log.soundness import LinkedRecord, faults_of_chain, faults_of_counting
from domain.log.upkeep import Concern, CopyProof, LogFault
from storage.issued_papers import KEPT
from storage.ledger import end_of
from storage.log_file import LogFile
from storage.upkeep.whole_file import GO_BACK

_PAGE = 500
_FIND_COPY = (
    "Put it back from a copy of the log, or ask whoever was given the paper for theirs. The record itself stands."
)


def proof_of(file: LogFile) -> CopyProof:
    """Counts, and the end of the chain as the file states it."""
    ((jobs, issued),) = file.run("SELECT (SELECT count(*) FROM job), (SELECT count(*) FROM issued)")
    return CopyProof(jobs=jobs, issued=issued, head=end_of(file).head.hex())


def faults_of_records(file: LogFile) -> Iterator[LogFault]:
    """Records that were altered, taken out or put in since they were issued."""
    yield from faults_of_chain(_records(file), GO_BACK)
    for number, state in file.run(
        "SELECT number, state FROM job WHERE (state IN ('issued', 'replaced'))"
        " IS NOT EXISTS (SELECT 1 FROM issued WHERE job_id = job.id)"
    ):
        yield _record_fault(f"The log calls {number} {state}, and its records say otherwise.")
    for (number,) in file.run("SELECT number FROM issued WHERE job_id IN (SELECT job_id FROM draft) ORDER BY seq"):
        yield _record_fault(f"{number} was issued, and another program put a draft beside its record.")


def faults_of_numbers(file: LogFile) -> Iterator[LogFault]:
    """Numbers that were given and lead to no job."""
    for prefix, following, here in file.run("SELECT prefix, next_number, is_here FROM device ORDER BY prefix"):
        first = len(prefix) + 2
        given = {
            row[0]
            for row in file.run(
                "SELECT CAST(substr(number, ?) AS INTEGER) FROM job WHERE substr(number, 1, ?) = ?",
                (first, first - 1, f"{prefix}-"),
            )
        }
        last = following if here else max(given, default=0) + 1
        yield from faults_of_counting(prefix, given, last, GO_BACK)


def faults_of_papers(file: LogFile) -> Iterator[LogFault]:
    """Papers that are missing or altered, or that nothing was issued as."""
    kept = file.home / KEPT
    expected: set[str] = set()
    for number, sha in file.run("SELECT number, pdf_sha FROM issued ORDER BY seq"):
        paper = kept / f"{number}.pdf"
        expected.add(paper.name)
        if trouble := _trouble_with(paper, sha):
            yield LogFault(about=Concern.PAPERS, says=trouble, do=_FIND_COPY)
    there = {path.name for path in kept.glob("*.pdf")} if kept.is_dir() else set[str]()
    for name in sorted(there - expected):
        says = f"{kept / name} lies among the issued papers, and nothing was issued as it."
        yield LogFault(about=Concern.PAPERS, says=says, do="Move it out of that folder.")


def _trouble_with(paper: Path, sha: bytes) -> str:
    try:
        with paper.open("rb") as file:
            found = hashlib.file_digest(file, "sha256").digest()
    except FileNotFoundError:
        return f"The paper {paper} is missing."
    except OSError as error:
        return f"The paper {paper} cannot be read: {error.strerror or error}."
    return "" if found == sha else f"The paper {paper} is not the one that was issued."


def _records(file: LogFile) -> Iterator[LinkedRecord]:
    after = 0
    while rows := file.run(
        "SELECT seq, number, body, sha, chain, pdf_sha FROM issued WHERE seq > ? ORDER BY seq LIMIT ?", (after, _PAGE)
    ):
        yield from map(LinkedRecord._make, rows)
        after = rows[-1][0]


def _record_fault(says: str) -> LogFault:
    return LogFault(about=Concern.RECORDS, says=says, do=GO_BACK)
