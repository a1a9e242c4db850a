"""Whether what a log holds as issued is still that, whatever keeps it."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from domain.log.chain import NO_RECORD, leaf, link
from domain.log.upkeep import Concern, LogFault


class LinkedRecord(NamedTuple):
    """An issued record in its place in the chain, as it is kept."""

    seq: int
    """Its turn, counted from 1."""
    number: str
    body: bytes
    sha: bytes
    """Its leaf."""
    chain: bytes
    """The chain up to it."""
    pdf_sha: bytes


def faults_of_chain(records: Iterable[LinkedRecord], do: str) -> Iterator[LogFault]:
    """Records, in the order of their turns, that were altered, taken out or put in since they were issued.

    `do` is what the person can do about it. They are read one by one: all of them together may not fit into memory.
    """
    chain, expected = NO_RECORD, 1
    for record in records:
        if record.seq != expected:
            yield _fault(f"Before {record.number}, {record.seq - expected} issued records are missing.", do)
        if leaf(record.body) != record.sha:
            yield _fault(f"The record of {record.number} is not as it was issued.", do)
        if link(chain, record.sha, record.pdf_sha) != record.chain:
            yield _fault(f"The chain over issued records is broken at {record.number}.", do)
        chain, expected = record.chain, record.seq + 1


def faults_of_counting(prefix: str, given: Iterable[int], following: int, do: str) -> Iterator[LogFault]:
    """Numbers of one prefix that were given, up to the one that follows, and lead to no job."""
    if lost := sorted(set(range(1, following)) - set(given)):
        names = ", ".join(f"{prefix}-{count:04d}" for count in lost[:5])
        more = f" and {len(lost) - 5} more" if len(lost) > 5 else ""
        yield _fault(f"Numbers were given for jobs that are not there: {names}{more}.", do)


def _fault(says: str, do: str) -> LogFault:
    return LogFault(about=Concern.RECORDS, says=says, do=do)
