"""What a job log is kept in: the port that SQLite, memory and other keepers fulfil.

A store remembers and finds; it decides nothing. What may be done is in `domain.log.use_cases`, each in one transaction.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING, NamedTuple, Protocol

from domain.log.job_log import JobLine, Query, State, TrailLine

if TYPE_CHECKING:
    from domain.editing.commands import Command
    from domain.editing.undo import Edit
    from domain.job.job import Job
    from domain.laptops.exchange_store import ExchangeStore
    from domain.log.due_days import DutyStore
    from domain.log.log_line import Findable
    from domain.log.numbering import Numbering
    from domain.log.sought import Sought
    from domain.log_note import LogNote
    from domain.register.entries import Kept, Person, RegisterEntry, RegisterKind


@dataclass(frozen=True, slots=True)
class StoredJob:
    """A job as a store holds it."""

    job: Job
    version: int = 0
    """How many edits it has had; 0 for one that is not kept yet."""
    state: State = State.DRAFT
    replaces: str = ""
    """The job of this log it corrects. What the job itself says may come from elsewhere."""
    correction: str = ""
    """The job of this log that was begun to correct it, issued or not."""
    put_right: bool = False

    @property
    def is_issued(self) -> bool:
        """There is a paper."""
        return self.state in {State.ISSUED, State.REPLACED}


@dataclass(frozen=True, slots=True)
class TrailEntry:
    """What the trail keeps of one edit."""

    who: str
    at: datetime
    what: str
    op: str = ""
    """The name its caller gave it; one of the store's own where there is none."""
    command: Command | None = None
    changes: str = ""
    """What it changed, as `domain.editing.undo.kept` says it; "" where there is nothing to step back."""
    undoes: int = 0
    redoes: int = 0


class EditMade(NamedTuple):
    """An edit that is kept under the name its caller gave it."""

    number: str
    version: int


class IssuedRecord(NamedTuple):
    """What is kept for good of an issued job, beside its paper."""

    number: str
    body: bytes
    """The job as issued, in its canonical bytes."""
    sha: bytes
    """Its leaf in the chain."""
    chain: bytes
    """The chain up to this record."""
    pdf_sha: bytes
    pages: int
    replaces: str
    """The job of this log that it replaces; "" where none."""
    by: str
    at: datetime


class PaperStore(Protocol):
    """Issued records and their papers: added, never altered or taken away."""

    def add(self, record: IssuedRecord, pdf: bytes) -> None:
        """Keep a paper and its record; both are there once the transaction ends, or neither."""
        ...

    def record(self, number: str) -> IssuedRecord | None:
        """The record of an issued job."""
        ...

    def pdf(self, number: str) -> bytes:
        """The paper as it was bound; raises where it is not there any more."""
        ...

    def kept_in(self, number: str) -> str:
        """The file people find the paper in; "" where it is in no file of its own."""
        ...

    def head(self) -> bytes:
        """The chain over all records; `NO_RECORD` while there is none."""
        ...

    def last(self) -> tuple[str, datetime] | None:
        """The number and moment of the record that was added last, by the log's own order."""
        ...


class NoteStore(Protocol):
    """What is kept of people beside all jobs."""

    def add(self, topic: str, note: LogNote) -> None:
        """Keep a note after all that were kept before."""
        ...

    def of(self, topic: str, who: str) -> tuple[LogNote, ...]:
        """The notes under a topic in the order they were kept; of everybody when nobody is named."""
        ...

    def about(self, topic: str, number: str) -> tuple[LogNote, ...]:
        """Those notes under a topic whose text is JSON and names this job as its `number`."""
        ...

    def save_position(self, number: str, where: str, who: str) -> bool:
        """Where somebody left a job; False when there is no such job."""
        ...

    def position(self, number: str, who: str) -> str:
        """Where that was; "" when never opened."""
        ...

    def last_opened(self, who: str) -> str:
        """The job somebody was in last; "" when there is none."""
        ...


class RegisterStore(Protocol):
    """Every version of every entry of the registers; the newest is found by its words and its title."""

    def add(self, entry: RegisterEntry, *, entry_id: str, version: int, who: str, at: datetime, retired: bool) -> Kept:
        """Keep a version of an entry; one without an id is new and is given the next."""
        ...

    def versions(self, entry_id: str) -> tuple[Kept, ...]:
        """Every version of an entry, oldest first."""
        ...

    def entries(self, kind: RegisterKind, words: str, *, retired: bool, limit: int) -> tuple[Kept, ...]:
        """Entries as they are now, by folded title in the order of code points, then by age."""
        ...

    def named(self, names: Iterable[str]) -> tuple[Person, ...]:
        """People as they are now who have one of these names, but for those retired."""
        ...

    def holds(self, entry: RegisterEntry) -> bool:
        """There is an entry that is the same thing in the world, retired or not."""
        ...


class Store(Protocol):
    """Jobs with their lines and trails; papers, notes and registers beside them. Raises JobLogError and nothing else."""

    @property
    def papers(self) -> PaperStore:
        """Issued papers."""
        ...

    @property
    def notes(self) -> NoteStore:
        """Notes and places left."""
        ...

    @property
    def registers(self) -> RegisterStore:
        """The registers."""
        ...

    @property
    def duties(self) -> DutyStore:
        """The days that duties are due."""
        ...

    @property
    def is_of_firm(self) -> bool:
        """It is the log of an office with laptops, or of a laptop. Cheap: nothing is loaded to tell."""
        ...

    @property
    def exchange(self) -> ExchangeStore | None:
        """What an office and its laptops tell each other; None where this keeper has no place for it."""
        ...

    def transaction(self, *numbers: str) -> AbstractContextManager[None]:
        """All that is done inside is on disk when it ends, or nothing of it where it raises.

        `numbers` are the jobs that will be read to be changed. Nobody else changes those, the registers or the end of
        the chain before it ends, so a store that locks by row locks first and reads then, in an order of its own; a job
        that is not named is locked where it is read. Transactions do not nest.
        Where the answer of the keeper is lost, it raises `UnknownIfKeptError`.
        """
        ...

    def next_number(self) -> str:
        """Give a number to a new job. Given and used in one transaction, numbers have no gaps."""
        ...

    def numbering(self) -> Numbering:
        """How jobs are numbered."""
        ...

    def begin_numbers(self, prefix: str) -> bool:
        """Begin numbers with these letters; False where one was given already, or they belong to another device."""
        ...

    def get(self, number: str) -> StoredJob | None:
        """The job with this number as it stands."""
        ...

    def put(self, stored: StoredJob, line: JobLine, *entries: TrailEntry) -> None:
        """Keep a job as it stands now with its line and search words, and add to its trail: one edit, or several in their order.

        `stored.version` is the one it had before, and each edit makes the next; what an issued job held as a draft is let go.
        """
        ...

    def operation(self, op: str, number: str = "") -> EditMade | None:
        """The edit that is kept under this name. Where two come at once under one name, only one is kept.

        `number` is the job it was made on, where that is known: what was done to an issued job before its paper need not be
        found without it, but for what began the job.
        """
        ...

    def edits(self, number: str, who: str) -> Iterable[Edit]:
        """What somebody did to a job, oldest first, as stepping needs it."""
        ...

    def trail(self, number: str, after: int) -> tuple[TrailLine, ...]:
        """The edits of a job that came after a version, oldest first."""
        ...

    def line(self, number: str) -> JobLine | None:
        """The line of a job; no job is read."""
        ...

    def version(self, number: str) -> int:
        """How many edits a job has had; 0 when there is no such job."""
        ...

    def find(self, query: Query, sought: Sequence[Sequence[Sought]] = ()) -> tuple[JobLine, ...]:
        """What an understood query asks for, the one touched last first; what is due, soonest first.

        Of each of `sought` a job holds one, besides.
        """
        ...

    def counts(self, things: Sequence[Sequence[Sought]], most: int) -> tuple[int, ...]:
        """How many jobs hold each of these in one of its ways; no more than `most` are counted."""
        ...

    def held(self, numbers: Sequence[str]) -> Mapping[str, Findable]:
        """What each of these jobs is found by."""
        ...

    def near(self, words: Sequence[str]) -> Mapping[str, Sequence[str]]:
        """By each word those that share a gap with it (`domain.log.spelling`), some perhaps that no job holds any more."""
        ...

    def data_version(self) -> int:
        """Another number once another program may have changed anything."""
        ...

    def head(self) -> bytes:
        """The chain over everything kept for good, trails, registers and notes too; `NO_RECORD` while there is nothing."""
        ...

    def had_head(self, head: bytes) -> bool:
        """That chain was once at this."""
        ...

    def refuses(self) -> str:
        """Why nothing can be kept now, in sentences; "" where it can."""
        ...

    def close(self) -> None:
        """Let go of what is held open; once is enough."""
        ...
