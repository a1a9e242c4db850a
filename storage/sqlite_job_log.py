"""The job log in a folder: SQLite, beside the papers it issued."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Self

from domain.log.stored_log import StoredLog
from storage.sqlite_store import SqliteStore

if TYPE_CHECKING:
    from domain.log.store import PhraseHashing


class SqliteJobLog(StoredLog):
    """The use cases of the log over the store of one folder."""

    @classmethod
    def open(cls, home: Path, waiting: Callable[[str], None] | None = None) -> Self:
        """The log in this folder; begun where there is none. `waiting` is told where another program has to be waited for."""
        return cls(SqliteStore.open(home, waiting), _set_by, _hashing)


def _hashing() -> PhraseHashing:
    # Loaded when somebody signs.
    from storage.signing_phrase import ScryptPhrases

    return ScryptPhrases()


def _set_by() -> str:
    # Loaded when a paper is issued: it reads every file that decides what pages hold.
    from storage.set_by import set_by

    return set_by()
