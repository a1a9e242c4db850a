"""The registers on disk: every version of an entry, and the words the newest one is found by."""

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from domain.register.entries import (
    Kept,
    Person,
    RegisterEntry,
    RegisterKind,
    identity_of,
    still_asked,
    title_of,
    words_in,
)
from domain.words import folded, joined, words_of
from storage.ledger import enter
from storage.ledger_entries import REGISTER
from storage.line_rows import microseconds
from storage.log_file import LogFile
from storage.register_rows import entry_number, kept_from

_COLUMNS = "register.entry, register.version, register.at, register.who, register.retired, register.body"
_BEGINS = "kind = :kind AND word >= :{0} AND word < :{0} || char(0x10FFFF)"
_WORDS_MAX = 8


class SqliteRegisters:
    """Fulfils `domain.log.store.RegisterStore` in one file. Additions are made inside a write of the file."""

    def __init__(self, file: LogFile) -> None:
        self._file = file

    def add(self, entry: RegisterEntry, *, entry_id: str, version: int, who: str, at: datetime, retired: bool) -> Kept:
        """Keep a version of an entry; one without an id is new and is given the next."""
        number = entry_number(entry_id) if entry_id else self._next_entry()
        values: dict[str, Any] = {
            "entry": number,
            "version": version,
            "kind": entry.kind,
            "at": microseconds(at),
            "who": who,
            "retired": int(retired),
            "body": entry.model_dump_json(),
        }
        ((seq,),) = self._file.run(
            "INSERT INTO register (entry, version, kind, at, who, retired, body)"
            " VALUES (:entry, :version, :kind, :at, :who, :retired, :body) RETURNING seq",
            values,
        )
        enter(self._file, REGISTER, seq)
        find_by(self._file, entry, values | {"seq": seq})
        return Kept(id=str(number), version=version, at=at, who=who, entry=entry, retired=retired)

    def versions(self, entry_id: str) -> tuple[Kept, ...]:
        """Every version of an entry, oldest first."""
        rows = self._file.run(
            f"SELECT {_COLUMNS} FROM register WHERE entry = ? ORDER BY version", (entry_number(entry_id),)
        )
        return tuple(map(kept_from, rows))

    def entries(self, kind: RegisterKind, words: str, *, retired: bool, limit: int) -> tuple[Kept, ...]:
        """Entries as they are now, by their titles."""
        asked = sorted(words_of(words), key=len, reverse=True)[:_WORDS_MAX]
        values: dict[str, Any] = {"kind": kind, "retired": int(retired), "limit": limit}
        conditions = ["register_now.kind = :kind", "register_now.retired = :retired"]
        for at, word in enumerate(asked):
            values[f"word{at}"] = word
            begins = _BEGINS.format(f"word{at}")
            conditions.append(f"register_now.entry IN (SELECT entry FROM register_word WHERE {begins})")
        rows = self._file.run(
            f"SELECT {_COLUMNS} FROM register_now JOIN register ON register.seq = register_now.seq"
            f" WHERE {' AND '.join(conditions)} ORDER BY register_now.title, register_now.entry LIMIT :limit",
            values,
        )
        return tuple(map(kept_from, rows))

    def named(self, names: Iterable[str]) -> tuple[Person, ...]:
        """People as they are now who have one of these names; of those retired only who was in training to the last."""
        found: list[Person] = []
        for name in filter(None, dict.fromkeys(map(joined, names))):
            rows = self._file.run(
                f"SELECT {_COLUMNS} FROM register_now JOIN register ON register.seq = register_now.seq"
                " WHERE register_now.kind = ? AND register_now.identity = ?"
                " ORDER BY register_now.entry",
                (RegisterKind.PERSON, name),
            )
            found += still_asked(map(kept_from, rows))
        return tuple(found)

    def holds(self, entry: RegisterEntry) -> bool:
        """There is an entry that is the same thing in the world, retired or not."""
        known = (entry.kind, identity_of(entry))
        return self._file.first("SELECT 1 FROM register_now WHERE kind = ? AND identity = ?", known) is not None

    def _next_entry(self) -> int:
        ((number,),) = self._file.run("SELECT 1 + coalesce(max(entry), 0) FROM register_now")
        return number


def find_by(file: LogFile, entry: RegisterEntry, values: dict[str, Any]) -> None:
    """Have an entry found by what its newest version says; `values` are its number, the row of that version, its retirement."""
    file.run(
        "INSERT INTO register_now (entry, seq, kind, retired, title, identity)"
        " VALUES (:entry, :seq, :kind, :retired, :title, :identity)"
        " ON CONFLICT (entry) DO UPDATE SET seq = excluded.seq, retired = excluded.retired,"
        " title = excluded.title, identity = excluded.identity",
        values | {"kind": entry.kind, "title": folded(title_of(entry)), "identity": identity_of(entry)},
    )
    file.run("DELETE FROM register_word WHERE entry = ?", (values["entry"],))
    for word in words_in(entry):
        file.run("INSERT INTO register_word (kind, word, entry) VALUES (?, ?, ?)", (entry.kind, word, values["entry"]))
