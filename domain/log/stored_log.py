"""A job log over a store."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from datetime import date, datetime
from typing import TYPE_CHECKING

from domain.log.job_log import JobLine, JobLogError, Query, TrailLine, no_such_job
from domain.log.search_words import understood
from domain.log_note import LogNote

if TYPE_CHECKING:
    from domain.editing.board_commands import TakeBoards
    from domain.editing.commands import Command, Declined
    from domain.editing.undo import UndoStep
    from domain.gate.assessment import Pack, Refusal
    from domain.gate.issued_paper import IssuedPaper
    from domain.job.job import Job
    from domain.job.signature import Role
    from domain.log.due_days import DueAsked, DueRow, UnansweredRow
    from domain.log.job_log import BoundPaper, Found
    from domain.log.laptops import Laptops
    from domain.log.numbering import Numbering
    from domain.log.put_right.notes import RemedyNote
    from domain.log.put_right.remedial_status import PutRight
    from domain.log.seal_keys import LogKey
    from domain.log.secret_keeping import PhraseHashing, SealSigner
    from domain.log.store import Store
    from domain.register.entries import Kept, Person, RegisterEntry, RegisterKind
    from domain.register.signing import MaySign


class StoredLog:
    """Fulfils `domain.log.job_log.JobLog`, which says what each method promises, over any store.

    What needs jobs as a whole is loaded when it is first asked for: the list a person begins with need not wait for it.
    """

    def __init__(
        self,
        store: Store,
        set_by: Callable[[], str] = str,
        hashing: Callable[[], PhraseHashing] | None = None,
        sealing: Callable[[], SealSigner] | None = None,
        shapes: Callable[[Job], tuple[str, str]] | None = None,
    ) -> None:
        """What a paper lacks that is not given: `set_by`, its seal signed, digests of its `shapes`; phrases need `hashing`."""
        self._store = store
        self._set_by = set_by
        self._hashing = hashing
        self._sealing = sealing
        self._shapes = shapes

    def create(self, job: Job, *, who: str, at: datetime, op: str = "") -> Job:
        from domain.log.use_cases.drafting import create

        return create(self._store, (job,), who=who, at=at, op=op)[0]

    def create_all(self, jobs: Iterable[Job], *, who: str, at: datetime, op: str = "") -> tuple[Job, ...]:
        from domain.log.use_cases.drafting import create

        return create(self._store, jobs, who=who, at=at, op=op)

    def edit(
        self, number: str, command: Command, *, who: str, at: datetime, op: str = "", phrase: str = ""
    ) -> Job | Declined:
        from domain.log.use_cases.drafting import edit

        return edit(self._store, self._phrases, number, command, phrase=phrase, who=who, at=at, op=op)

    def take_boards(self, number: str, other: str, *, who: str, at: datetime) -> TakeBoards | Declined:
        """Take the boards of another job of one visit into this one."""
        from domain.log.use_cases.taking_boards import take_boards

        return take_boards(self._store, number, other, who=who, at=at)

    def undo(self, number: str, *, who: str, at: datetime, op: str = "") -> UndoStep | Declined:
        from domain.log.use_cases.drafting import undo

        return undo(self._store, number, who=who, at=at, op=op)

    def redo(self, number: str, *, who: str, at: datetime, op: str = "") -> UndoStep | Declined:
        from domain.log.use_cases.drafting import redo

        return redo(self._store, number, who=who, at=at, op=op)

    def replace(self, number: str, *, because: str, who: str, at: datetime, op: str = "") -> Job | Declined:
        from domain.log.use_cases.drafting import replace

        return replace(self._store, number, because=because, who=who, at=at, op=op)

    def load(self, number: str) -> Job | None:
        stored = self._store.get(number)
        return stored.job if stored else None

    def line(self, number: str) -> JobLine | None:
        return self._store.line(number)

    def version(self, number: str) -> int:
        return self._store.version(number)

    def data_version(self) -> int:
        return self._store.data_version()

    def find(self, query: Query) -> tuple[JobLine, ...]:
        return self._store.find(understood(query))

    def due(self, asked: DueAsked) -> Iterator[DueRow]:
        return self._store.duties.rows(asked)

    def due_counted(self) -> Iterator[tuple[date, bool, int]]:
        return self._store.duties.counted()

    def unanswered(self, after: str = "", limit: int | None = None) -> Iterator[UnansweredRow]:
        return self._store.duties.unanswered(after, limit)

    def count_unanswered(self) -> int:
        return self._store.duties.count_unanswered()

    def search(self, query: Query) -> Found:
        from domain.log.searching.search import search

        return search(self._store, query)

    def trail(self, number: str, *, after: int = 0) -> tuple[TrailLine, ...]:
        return self._store.trail(number, after)

    def may_sign(self, name: str, roles: Iterable[Role]) -> tuple[Person | None, MaySign]:
        from domain.log.use_cases.signing import may_sign_for

        return may_sign_for(self._store, name, roles)

    def phrase_asked(self, name: str) -> bool:
        from domain.log.use_cases.phrases import is_asked

        return is_asked(self._store, name)

    def set_phrase(self, name: str, phrase: str, *, before: str = "", who: str, at: datetime) -> str:
        from domain.log.use_cases.phrases import set_phrase

        return set_phrase(self._store, self._phrases, name, phrase, before=before, who=who, at=at)

    def require_phrases(self, *, required: bool, who: str, at: datetime) -> None:
        from domain.log.use_cases.phrases import require

        require(self._store, required=required, who=who, at=at)

    @property
    def _phrases(self) -> PhraseHashing | None:
        return self._hashing() if self._hashing else None

    def issue_document(
        self,
        job: Job,
        *,
        by: str,
        at: datetime,
        bind: Callable[[Pack], BoundPaper],
        op: str = "",
        earlier: bool = False,
    ) -> IssuedPaper | Refusal:
        from domain.log.use_cases.issuing import issue_document

        made_by = self._set_by(), self._signer, self._shapes
        return issue_document(self._store, job, *made_by, by=by, at=at, bind=bind, op=op, earlier=earlier)

    def may_issue(self, job: Job, *, by: str, at: datetime) -> Pack | Refusal:
        from domain.log.use_cases.issuing import may_issue

        return may_issue(self._store, job, by=by, at=at, set_by=self._set_by())

    def issue(
        self,
        number: str,
        *,
        by: str,
        at: datetime,
        bind: Callable[[Pack], BoundPaper],
        seen: str = "",
        op: str = "",
        earlier: bool = False,
    ) -> IssuedPaper | Refusal:
        from domain.log.use_cases.issuing import issue_job

        made_by = self._set_by(), self._signer, self._shapes
        return issue_job(self._store, number, *made_by, by=by, at=at, bind=bind, seen=seen, op=op, earlier=earlier)

    def seal_keys(self) -> tuple[LogKey, ...]:
        from domain.log.use_cases.sealing import keys_of

        return keys_of(self._store)

    def begin_seal_key(self, *, who: str, at: datetime) -> LogKey | None:
        from domain.log.use_cases.sealing import key_to_seal, keys_of

        return keys_of(self._store)[-1] if key_to_seal(self._store, self._signer, by=who, at=at) else None

    def rotate_seal_key(self, *, who: str, at: datetime) -> LogKey:
        from domain.log.use_cases.sealing import rotate

        return rotate(self._store, self._need_signer(), by=who, at=at)

    def replace_lost_seal_key(self, *, who: str, at: datetime) -> LogKey:
        from domain.log.use_cases.sealing import begin_after_loss

        return begin_after_loss(self._store, self._need_signer(), by=who, at=at)

    @property
    def _signer(self) -> SealSigner | None:
        return self._sealing() if self._sealing else None

    def _need_signer(self) -> SealSigner:
        if (signer := self._signer) is None:
            raise JobLogError("This log seals its papers without a key.")
        return signer

    def issued(self, number: str) -> IssuedPaper | None:
        from domain.log.use_cases.issuing import issued_paper

        return issued_paper(self._store, number)

    def paper(self, number: str) -> bytes:
        from domain.log.use_cases.issuing import paper_of

        return paper_of(self._store, number)

    def chain_head(self) -> str:
        return self._store.head().hex()

    def had_head(self, head: str) -> bool:
        return self._store.had_head(bytes.fromhex(head))

    def numbering(self) -> Numbering:
        return self._store.numbering()

    def begin_numbers(self, prefix: str) -> str:
        from domain.log.use_cases.numbering import begin_numbers

        return begin_numbers(self._store, prefix)

    def refuses(self) -> str:
        return self._store.refuses()

    @property
    def firm(self) -> Laptops | None:
        return self.laptops if self._store.is_of_firm else None

    @property
    def laptops(self) -> Laptops | None:
        from domain.log.use_cases.laptops import StoredLaptops

        return StoredLaptops(self._store, self._store.exchange) if self._store.exchange is not None else None

    def remedial_status(self, report: Job) -> PutRight:
        from domain.log.use_cases.putting_right import remedial_status

        return remedial_status(self._store, report)

    def note_remedy(self, number: str, note: RemedyNote, *, who: str, at: datetime) -> str:
        from domain.log.use_cases.putting_right import note_remedy

        return note_remedy(self._store, number, note, who=who, at=at)

    def reports_put_right(self, number: str) -> tuple[str, ...]:
        from domain.log.use_cases.putting_right import reports_put_right

        return reports_put_right(self._store, number)

    def save_position(self, number: str, where: str, *, who: str) -> None:
        with self._store.transaction():
            if not self._store.notes.save_position(number, where, who):
                raise no_such_job(number)

    def position(self, number: str, *, who: str) -> str:
        return self._store.notes.position(number, who)

    def last_opened(self, *, who: str) -> str:
        return self._store.notes.last_opened(who)

    def add_note(self, topic: str, text: str, *, who: str, at: datetime) -> None:
        from domain.log.use_cases.noting import add_note

        add_note(self._store, topic, LogNote(at=at, who=who, text=text))

    def notes(self, topic: str, *, who: str = "") -> tuple[LogNote, ...]:
        return self._store.notes.of(topic, who)

    def register(
        self, entry: RegisterEntry, *, entry_id: str = "", who: str, at: datetime, retired: bool = False
    ) -> Kept:
        from domain.log.use_cases.registering import register

        return register(self._store, entry, entry_id=entry_id, who=who, at=at, retired=retired)

    def merge_entries(self, stays: str, goes: str, *, who: str, at: datetime) -> Kept:
        from domain.log.use_cases.registering import merge

        return merge(self._store, stays, goes, who=who, at=at)

    def registered(
        self, kind: RegisterKind, words: str = "", *, retired: bool = False, limit: int = 50
    ) -> tuple[Kept, ...]:
        return self._store.registers.entries(kind, words, retired=retired, limit=limit)

    def people_named(self, names: Iterable[str]) -> tuple[Person, ...]:
        return self._store.registers.named(names)

    def versions_of(self, entry_id: str) -> tuple[Kept, ...]:
        return self._store.registers.versions(entry_id)

    def close(self) -> None:
        self._store.close()
