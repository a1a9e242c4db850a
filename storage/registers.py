"""The registers on disk: every version of an entry, and the words the newest one is found by."""

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from pydantic import ValidationError

from domain.job.job import Job
from domain.log.job_log import JobLogError
from domain.register.entries import ENTRY, Kept, Person, RegisterEntry, RegisterKind, identity_of, title_of, words_in
from domain.register.learning import learnt_from
from domain.words import folded, joined, words_of
from storage.errors import damaged
from storage.line_rows import microseconds, moment
from storage.log_file import LogFile

_COLUMNS = "register.entry, register.version, register.at, register.who, register.retired, register.body"
_BEGINS = "kind = :kind AND word >= :{0} AND word < :{0} || char(0x10FFFF)"
_WORDS_MAX = 8


class Registers:
    """What `SqliteJobLog` asks of the registers in its file."""

    def __init__(self, file: LogFile) -> None:
        self._file = file

    def keep(self, entry: RegisterEntry, *, entry_id: str, who: str, at: datetime, retired: bool) -> Kept:
        """Keep a new entry, or another version of the one with this id."""
        with self._file.writing():
            return _keep(self._file, entry, entry_id=entry_id, who=who, at=at, retired=retired)

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
        return tuple(map(_kept_from, rows))

    def people_named(self, names: Iterable[str]) -> tuple[Person, ...]:
        """Those of the register of people, as it is now, who have one of these names."""
        return people_named(self._file, names)

    def versions_of(self, entry_id: str) -> tuple[Kept, ...]:
        """Every version of an entry, oldest first."""
        rows = self._file.run(f"SELECT {_COLUMNS} FROM register WHERE entry = ? ORDER BY version", (_number(entry_id),))
        return tuple(map(_kept_from, rows))


def people_named(file: LogFile, names: Iterable[str]) -> tuple[Person, ...]:
    """Those of the register of people, as it is now, who have one of these names."""
    kept: list[Kept] = []
    for name in filter(None, dict.fromkeys(map(joined, names))):
        rows = file.run(
            f"SELECT {_COLUMNS} FROM register_now JOIN register ON register.seq = register_now.seq"
            " WHERE register_now.kind = ? AND register_now.identity = ? AND NOT register_now.retired"
            " ORDER BY register_now.entry",
            (RegisterKind.PERSON, name),
        )
        kept += map(_kept_from, rows)
    return tuple(each.entry for each in kept if isinstance(each.entry, Person))


def learn_entries(file: LogFile, job: Job, *, who: str, at: datetime) -> None:
    """Keep what a paper names and the registers do not hold. Call it inside a write."""
    for entry in learnt_from(job):
        known = (entry.kind, identity_of(entry))
        if not file.first("SELECT 1 FROM register_now WHERE kind = ? AND identity = ?", known):
            _keep(file, entry, entry_id="", who=who, at=at, retired=False)


def _keep(file: LogFile, entry: RegisterEntry, *, entry_id: str, who: str, at: datetime, retired: bool) -> Kept:
    number, version = _next_version(file, entry, entry_id)
    values: dict[str, Any] = {
        "entry": number,
        "version": version,
        "kind": entry.kind,
        "at": microseconds(at),
        "who": who,
        "retired": int(retired),
        "body": entry.model_dump_json(),
    }
    ((seq,),) = file.run(
        "INSERT INTO register (entry, version, kind, at, who, retired, body)"
        " VALUES (:entry, :version, :kind, :at, :who, :retired, :body) RETURNING seq",
        values,
    )
    _find_by(file, entry, values | {"seq": seq})
    return Kept(id=str(number), version=version, at=at, who=who, entry=entry, retired=retired)


def _next_version(file: LogFile, entry: RegisterEntry, entry_id: str) -> tuple[int, int]:
    if not entry_id:
        ((number,),) = file.run("SELECT 1 + coalesce(max(entry), 0) FROM register_now")
        return number, 1
    row = file.first("SELECT kind, max(version) FROM register WHERE entry = ?", (_number(entry_id),))
    if row is None or row[1] is None:
        raise JobLogError(f"There is no entry {entry_id!r} in the registers.")
    if row[0] != entry.kind:
        raise JobLogError(f"Entry {entry_id} is a {row[0]} and stays one.")
    return _number(entry_id), row[1] + 1


def _find_by(file: LogFile, entry: RegisterEntry, values: dict[str, Any]) -> None:
    file.run(
        "INSERT INTO register_now (entry, seq, kind, retired, title, identity)"
        " VALUES (:entry, :seq, :kind, :retired, :title, :identity)"
        " ON CONFLICT (entry) DO UPDATE SET seq = excluded.seq, retired = excluded.retired,"
        " title = excluded.title, identity = excluded.identity",
        values | {"title": folded(title_of(entry)), "identity": identity_of(entry)},
    )
    file.run("DELETE FROM register_word WHERE entry = ?", (values["entry"],))
    for word in words_in(entry):
        file.run("INSERT INTO register_word (kind, word, entry) VALUES (?, ?, ?)", (entry.kind, word, values["entry"]))


def _number(entry_id: str) -> int:
    return int(entry_id) if entry_id.isascii() and entry_id.isdecimal() and len(entry_id) < 19 else -1


def _kept_from(row: tuple[Any, ...]) -> Kept:
    number, version, at, who, retired, body = row
    try:
        entry = ENTRY.validate_json(body)
    except ValidationError as trouble:
        raise damaged(f"Entry {number} of the registers") from trouble
    return Kept(id=str(number), version=version, at=moment(at), who=who, entry=entry, retired=bool(retired))
