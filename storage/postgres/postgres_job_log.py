"""The job log on a server. What a broken line left undone, or nobody knows of, is asked again under the same name."""

from __future__ import annotations

import secrets
from collections.abc import Callable, Iterable, Mapping
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Self, TypeVar, cast

from domain.log.job_log import UnknownIfKeptError
from domain.log.stored_log import StoredLog
from storage.postgres.layout import has_log
from storage.postgres.postgres_store import PostgresStore
from storage.postgres.server_errors import NotKeptError
from storage.postgres.server_lines import connected_to

if TYPE_CHECKING:
    from domain.editing.commands import Command, Declined
    from domain.editing.undo import UndoStep
    from domain.gate.assessment import Pack, Refusal
    from domain.gate.issued_paper import IssuedPaper
    from domain.job.job import Job
    from domain.log.job_log import BoundPaper
    from domain.log.secret_keeping import PhraseHashing, SealSigner
    from storage.postgres.server_address import ServerAddress

Answer = TypeVar("Answer")
_TIMES = 4


class PostgresJobLog(StoredLog):
    """The use cases of the log over the store of a server."""

    @classmethod
    def open(cls, address: ServerAddress, home: Path | None = None) -> Self:
        """The log at an address; begun where there is none.

        `home` is the folder of this computer that holds the key it seals with; without one it seals without.
        """
        sealing, store = partial(_sealing, home) if home else None, PostgresStore.open(address)

        def stamp(come: Mapping[str, int]) -> None:
            from storage.stamp import Stamp

            Stamp.of_server(address).write(come, store.numbering().prefix)

        store.stamped = stamp
        if store.is_of_firm:
            from storage.stamp import Stamp, held_against_stamp

            held_against_stamp(Stamp.of_server(address), store)
        return cls(store, _set_by, _hashing, sealing, _shapes)

    @property
    def role(self) -> str:
        """As whom the server knows who is here; what a computer says of its own accounts counts for nothing there."""
        return cast(PostgresStore, self._store).role

    def create(self, job: Job, *, who: str, at: datetime, op: str = "") -> Job:
        create = super().create
        return self._kept(op, lambda name: create(job, who=who, at=at, op=name))

    def create_all(self, jobs: Iterable[Job], *, who: str, at: datetime, op: str = "") -> tuple[Job, ...]:
        given, create_all = tuple(jobs), super().create_all
        return self._kept(op, lambda name: create_all(given, who=who, at=at, op=name))

    def edit(
        self, number: str, command: Command, *, who: str, at: datetime, op: str = "", phrase: str = ""
    ) -> Job | Declined:
        edit = super().edit
        return self._kept(op, lambda name: edit(number, command, who=who, at=at, op=name, phrase=phrase))

    def undo(self, number: str, *, who: str, at: datetime, op: str = "") -> UndoStep | Declined:
        undo = super().undo
        return self._kept(op, lambda name: undo(number, who=who, at=at, op=name))

    def redo(self, number: str, *, who: str, at: datetime, op: str = "") -> UndoStep | Declined:
        redo = super().redo
        return self._kept(op, lambda name: redo(number, who=who, at=at, op=name))

    def replace(self, number: str, *, because: str, who: str, at: datetime, op: str = "") -> Job | Declined:
        replace = super().replace
        return self._kept(op, lambda name: replace(number, because=because, who=who, at=at, op=name))

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
        issue = super().issue_document
        return self._kept(op, lambda name: issue(job, by=by, at=at, bind=bind, op=name, earlier=earlier))

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
        issue = super().issue
        return self._kept(op, lambda name: issue(number, by=by, at=at, bind=bind, seen=seen, op=name, earlier=earlier))

    def _kept(self, op: str, ask: Callable[[str], Answer]) -> Answer:
        """Ask under a name, and again under the same one where the line broke: then it is done once, or not at all."""
        never_asked = cast(PostgresStore, self._store).never_asked
        name = op or secrets.token_hex(12)
        if not op:
            never_asked.add(name)
        try:
            for left in reversed(range(_TIMES)):
                try:
                    return ask(name)
                except (UnknownIfKeptError, NotKeptError):
                    never_asked.discard(name)
                    if not left:
                        raise
            raise AssertionError
        finally:
            never_asked.discard(name)


def has_log_at(address: ServerAddress) -> bool:
    """Whether there is one already; opening begins one where there is none."""
    with connected_to(address) as connection:
        return has_log(connection, address)


def _sealing(home: Path) -> SealSigner:
    from storage.opening import make_home
    from storage.seal_signing import SealSigning

    make_home(home)
    return SealSigning(home)


def _hashing() -> PhraseHashing:
    from storage.signing_phrase import ScryptPhrases

    return ScryptPhrases()


def _set_by() -> str:
    from storage.set_by import set_by

    return set_by()


def _shapes(job: Job) -> tuple[str, str]:
    from storage.shapes.digests import shape_digests

    return shape_digests(job)
