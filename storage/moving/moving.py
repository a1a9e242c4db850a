"""A log moved whole: every row and paper, proved at the other end before anybody may use it, and closed where it was."""

import hashlib
from contextlib import AbstractContextManager
from datetime import datetime
from typing import Protocol

from domain.log.job_log import JobLogError
from domain.log.upkeep import CopyProof, LogFault, MovedLog
from storage.moving.parts import DEVICE, LEFT_OFF, MATTER, PAPER, PARTS, STATES, STATION, LogEnd, digest, every_row


class LogSource(Protocol):
    """A log that is to be moved; nobody uses it meanwhile."""

    def whole(self) -> CopyProof:
        """What it holds, where it is whole; JobLogError where it is not."""
        ...

    def left_open(self, to: str) -> AbstractContextManager[LogEnd]:
        """Have it to oneself. It may have been left already for the same place, by a move that did not finish."""
        ...

    def leave(self, to: str) -> None:
        """From now on it says where it went, and is used no more. Call it while it is opened."""
        ...


class LogDestination(Protocol):
    """Where a log is to be; nobody uses it before it is whole."""

    def filled(self, mark: str, at: datetime) -> AbstractContextManager[LogEnd]:
        """A log that is being filled: the one begun for the same mark, or a new one."""
        ...

    def ready(self) -> None:
        """What was moved is the log of this place from now on."""
        ...

    def proved(self) -> tuple[CopyProof, list[LogFault]]:
        """What it holds now, and what is wrong with it."""
        ...


def move(source: LogSource, to: LogDestination, *, place: str, at: datetime) -> MovedLog:
    """Move a log. What stopped half way goes on with the same words typed again, unless the log has changed since."""
    proof = source.whole()
    with source.left_open(place) as old:
        with to.filled(_mark_of(old, proof), at) as new:
            rows = carry(old, new, place)
        # First the one is closed, then the other opened: at no moment do both give numbers.
        source.leave(place)
        to.ready()
    arrived, faults = to.proved()
    if arrived != proof or faults:
        says = faults[0].says if faults else "it holds another number of jobs or papers"
        raise JobLogError(f"The log was moved to {place}, and is not whole there: {says}")
    return MovedLog(proof=arrived, papers=arrived.issued, rows=rows)


def carry(old: LogEnd, new: LogEnd, place: str) -> str:
    """Have the one hold what the other does, and number on from there; a digest over every row, the same at both."""
    for part in PARTS:
        for rows in every_row(old, part, None if part is DEVICE else new.last(part)):
            new.add(part, rows)
    for rows in every_row(old, STATES):
        new.set_states(rows)
    held, moved = digest(old), digest(new)
    if held != moved:
        raise JobLogError(f"What came to {place} is not what was here. Nothing was moved; try again.")
    new.finish()
    return held


def _mark_of(end: LogEnd, proof: CopyProof) -> str:
    """Another text once anything was done in the log."""
    lasts = [(part.name, end.last(part)) for part in PARTS if part is not PAPER]
    # Of these, rows are altered without one being added anywhere.
    altered = [list(every_row(end, part)) for part in (LEFT_OFF, STATION, MATTER)]
    return hashlib.sha256(repr((proof, lasts, altered)).encode()).hexdigest()
