"""The job log in a folder: SQLite, beside the papers it issued."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, Self

from domain.log.stored_log import StoredLog
from storage.errors import as_job_log_error
from storage.log_file import FILE_NAME
from storage.sqlite_store import SqliteStore

if TYPE_CHECKING:
    from datetime import datetime

    from domain.gate.assessment import Refusal
    from domain.gate.issued_paper import IssuedPaper
    from domain.job.job import Job
    from domain.log.secret_keeping import PhraseHashing, SealSigner
    from domain.log.use_cases.issuing import Bind


class SqliteJobLog(StoredLog):
    """The use cases of the log over the store of one folder."""

    prove: Callable[[str], object] | None = None
    """Told the number of each job that was issued, once all of it is on disk."""

    @classmethod
    def open(cls, home: Path, waiting: Callable[[str], None] | None = None) -> Self:
        """The log in this folder; begun where there is none, with a key to seal with.

        `waiting` is told where another program has to be waited for.
        """
        # os.path asks without raising; where the folder may not be read, opening it says so.
        is_new = not os.path.exists(home / FILE_NAME)  # noqa: PTH110
        store = _opened(home, waiting)
        if is_new:
            _begin_key(home, store)
        elif store.is_of_firm:
            from storage.stamp import Stamp, begin_witness_anew, held_against_stamp

            if held_against_stamp(Stamp.of_folder(home), store):
                begin_witness_anew(home)
                store.close()
                store = _opened(home, waiting)
        return cls(store, _set_by, _hashing, partial(_sealing, home), _shapes)

    @classmethod
    def open_plainly(cls, home: Path) -> Self:
        """A log that is about to become that of a laptop: not held against what this computer remembers of it."""
        return cls(SqliteStore.open(home), _set_by, _hashing, partial(_sealing, home), _shapes)

    def issue(self, number: str, *, by: str, at: datetime, bind: Bind, **asked: Any) -> IssuedPaper | Refusal:
        """As every log does; then what came of it is proved, and marked so."""
        return self._proved(super().issue(number, by=by, at=at, bind=bind, **asked))

    def issue_document(self, job: Job, *, by: str, at: datetime, bind: Bind, **asked: Any) -> IssuedPaper | Refusal:
        """As every log does; then what came of it is proved, and marked so."""
        return self._proved(super().issue_document(job, by=by, at=at, bind=bind, **asked))

    def _proved(self, answer: IssuedPaper | Refusal) -> IssuedPaper | Refusal:
        number = getattr(answer, "number", "")
        if number and self.prove:
            self.prove(number)
        return answer


def _opened(home: Path, waiting: Callable[[str], None] | None) -> SqliteStore:
    store = SqliteStore.open(home, waiting)

    def stamp(come: Mapping[str, int]) -> None:
        from storage.stamp import Stamp

        Stamp.of_folder(home).write(come, store.numbering().prefix)

    # Also where it is no firm's yet: somebody may make it one meanwhile.
    store.stamped = stamp
    return store


def _begin_key(home: Path, store: SqliteStore) -> None:
    from storage.keys.key_file import KeyFile

    try:
        KeyFile(home).begin()
    except OSError as trouble:
        store.close()
        raise as_job_log_error(trouble, home) from trouble


def _sealing(home: Path) -> SealSigner:
    # Loaded when a paper is issued.
    from storage.seal_signing import SealSigning

    return SealSigning(home)


def _hashing() -> PhraseHashing:
    # Loaded when somebody signs.
    from storage.signing_phrase import ScryptPhrases

    return ScryptPhrases()


def _set_by() -> str:
    # Loaded when a paper is issued: it reads every file that decides what pages hold.
    from storage.set_by import set_by

    return set_by()


def _shapes(job: Job) -> tuple[str, str]:
    from storage.shapes.digests import shape_digests

    return shape_digests(job)
