"""The registers on a server: every version of an entry, and the words the newest one is found by."""

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
from storage.ledger_entries import REGISTER
from storage.line_rows import microseconds
from storage.postgres.log_server import LogServer
from storage.postgres.postgres_ledger import PostgresLedger
from storage.postgres.server_lines import Row
from storage.register_rows import entry_number, kept_from

_COLUMNS = "register.entry, register.version, register.at, register.who, register.retired, register.body"
_FROM_NOW = "FROM register_now JOIN register ON register.seq = register_now.seq"
_NOW, _NAMED = f"SELECT {_COLUMNS} {_FROM_NOW}", f"SELECT register_now.identity, {_COLUMNS} {_FROM_NOW}"
_ADD = """
INSERT INTO register (entry, version, kind, at, who, retired, body)
VALUES (%(entry)s, %(version)s, %(kind)s, %(at)s, %(who)s, %(retired)s, %(body)s) RETURNING seq
"""
_ADD_NOW = """
INSERT INTO register_now (entry, seq, kind, retired, title, identity)
VALUES (%(entry)s, %(seq)s, %(kind)s, %(retired)s, %(title)s, %(identity)s)
ON CONFLICT (entry) DO UPDATE SET seq = excluded.seq, retired = excluded.retired, title = excluded.title,
    identity = excluded.identity
"""
_TURN = "SELECT pg_advisory_xact_lock(hashtext('ohmfolio registers'), hashtext(%s))"
_LAST = "\U0010ffff"
_WORDS_MAX = 8


class PostgresRegisters:
    """Fulfils `domain.log.store.RegisterStore`. Inside a transaction they are one person's from the first question on."""

    def __init__(self, server: LogServer) -> None:
        self._server = server
        self._ledger = PostgresLedger(server)

    def add(self, entry: RegisterEntry, *, entry_id: str, version: int, who: str, at: datetime, retired: bool) -> Kept:
        """Keep a version of an entry; one without an id is new and is given the next."""
        number = entry_number(entry_id) if entry_id else self._next_entry()
        values: dict[str, Any] = {
            "entry": number,
            "version": version,
            "kind": entry.kind.value,
            "at": microseconds(at),
            "who": who,
            "retired": retired,
            "body": entry.model_dump_json(),
            "title": folded(title_of(entry)),
            "identity": identity_of(entry),
        }
        ((seq,),) = self._asked(_ADD, values)
        self._server.run_all(
            (
                (_ADD_NOW, values | {"seq": seq}),
                ("DELETE FROM register_word WHERE entry = %s", (number,)),
                (
                    "INSERT INTO register_word (kind, word, entry) SELECT %s, unnest(%s::text[]), %s",
                    (entry.kind.value, sorted(set(words_in(entry))), number),
                ),
            )
        )
        kept = (number, version, values["kind"], values["at"], who, int(retired), values["body"])
        self._ledger.enter(REGISTER, seq, f"entry {number}", kept)
        return Kept(id=str(number), version=version, at=at, who=who, entry=entry, retired=retired)

    def versions(self, entry_id: str) -> tuple[Kept, ...]:
        """Every version of an entry, oldest first."""
        asked = f"SELECT {_COLUMNS} FROM register WHERE entry = %s ORDER BY version"
        return tuple(map(kept_from, self._asked(asked, (entry_number(entry_id),))))

    def entries(self, kind: RegisterKind, words: str, *, retired: bool, limit: int) -> tuple[Kept, ...]:
        """Entries as they are now, by their titles."""
        values: dict[str, Any] = {"kind": kind.value, "retired": retired, "limit": limit}
        conditions = ["register_now.kind = %(kind)s", "register_now.retired = %(retired)s"]
        for at, word in enumerate(sorted(words_of(words), key=len, reverse=True)[:_WORDS_MAX]):
            values |= {f"from{at}": word, f"to{at}": word + _LAST}
            begun = f"kind = %(kind)s AND word >= %(from{at})s AND word < %(to{at})s"
            conditions.append(f"register_now.entry IN (SELECT entry FROM register_word WHERE {begun})")
        asked = (
            f"{_NOW} WHERE {' AND '.join(conditions)} ORDER BY register_now.title, register_now.entry LIMIT %(limit)s"
        )
        return tuple(map(kept_from, self._asked(asked, values)))

    def named(self, names: Iterable[str]) -> tuple[Person, ...]:
        """People as they are now who have one of these names; of those retired only who was in training to the last."""
        asked = f"{_NAMED} WHERE register_now.kind = %s AND register_now.identity = ANY(%s) ORDER BY register_now.entry"
        alike = [*dict.fromkeys(name for name in map(joined, names) if name)]
        found: dict[str, list[Row]] = {name: [] for name in alike}
        for identity, *row in self._asked(asked, (RegisterKind.PERSON.value, alike)) if alike else ():
            found[identity].append(tuple(row))
        return tuple(person for rows in found.values() for person in still_asked(map(kept_from, rows)))

    def holds(self, entry: RegisterEntry) -> bool:
        """There is an entry that is the same thing in the world, retired or not."""
        known = (entry.kind.value, identity_of(entry))
        return bool(self._asked("SELECT 1 FROM register_now WHERE kind = %s AND identity = %s LIMIT 1", known))

    def _next_entry(self) -> int:
        ((number,),) = self._asked("SELECT 1 + coalesce(max(entry), 0) FROM register_now", ())
        return number

    def _asked(self, statement: str, values: Any) -> list[Row]:
        if self._server.in_transaction:
            # Who signs or issues goes by the registers; nobody alters them until that is kept.
            return self._server.answers((_TURN, (self._server.address.schema,)), (statement, values))[-1]
        return self._server.run(statement, values)
