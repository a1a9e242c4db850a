"""Notes of people beside all jobs, and where they left each, on a server."""

from collections.abc import Sequence

from domain.log_note import LogNote
from storage.ledger_entries import NOTE
from storage.line_rows import microseconds, note_from
from storage.postgres.log_server import LogServer
from storage.postgres.postgres_ledger import PostgresLedger
from storage.postgres.transaction import Asked

_TURN = "SELECT pg_advisory_xact_lock(hashtext('ohmfolio notes'), hashtext(current_schema()))"
_ABOUT = 'SELECT at, who, text FROM note WHERE topic = %s AND number_named(text) COLLATE "C" = ANY(%s) ORDER BY id'
_LEFT = """
INSERT INTO left_off (who, job_id, place) SELECT %(who)s, id, %(place)s FROM job WHERE number = %(number)s
ON CONFLICT (who, job_id) DO UPDATE SET place = excluded.place, turn = excluded.turn RETURNING turn
"""


class PostgresNotes:
    """Fulfils `domain.log.store.NoteStore`. Writes are made inside a transaction."""

    def __init__(self, server: LogServer) -> None:
        self._server = server
        self._ledger = PostgresLedger(server)

    def add(self, topic: str, note: LogNote) -> None:
        """Keep a note after all that were kept before."""
        kept = (topic, note.who, microseconds(note.at), note.text)
        ((row,),) = self._server.run(
            "INSERT INTO note (topic, who, at, text) VALUES (%s, %s, %s, %s) RETURNING id", kept
        )
        self._ledger.enter(NOTE, row, topic, kept)

    def of(self, topic: str, who: str) -> tuple[LogNote, ...]:
        """The notes under a topic, oldest first; of everybody when nobody is named.

        Inside a transaction nobody else asks for them before it ends: who goes by what is noted may add to it.
        """
        if self._server.in_transaction:
            self._server.run(_TURN)
        rows = self._server.run(
            "SELECT at, who, text FROM note WHERE topic = %(topic)s AND %(who)s IN ('', who) ORDER BY id",
            {"topic": topic, "who": who},
        )
        return tuple(map(note_from, rows))

    def about(self, topic: str, number: str) -> tuple[LogNote, ...]:
        """Those notes under a topic whose text is JSON and names this job as its `number`.

        Whoever adds one locks its job first, so nobody waits here for those about other jobs.
        """
        return notes_about(self._server, topic, [number])

    def save_position(self, number: str, where: str, who: str) -> bool:
        """Where somebody left a job; False when there is no such job."""
        if "\0" in number:
            return False
        return bool(self._server.run(_LEFT, {"who": who, "place": where, "number": number}))

    def position(self, number: str, who: str) -> str:
        """Where that was; "" when never opened."""
        asked = "SELECT place FROM left_off WHERE who = %s AND job_id = (SELECT id FROM job WHERE number = %s)"
        row = self._server.first(asked, (who, number))
        return row[0] if row else ""

    def last_opened(self, who: str) -> str:
        """The job somebody was in last; "" when there is none."""
        row = self._server.first(
            "SELECT job.number FROM left_off JOIN job ON job.id = left_off.job_id"
            " WHERE left_off.who = %s ORDER BY left_off.turn DESC LIMIT 1",
            (who,),
        )
        return row[0] if row else ""


def notes_about(server: LogServer, topic: str, numbers: Sequence[str]) -> tuple[LogNote, ...]:
    """The notes under a topic that name one of these jobs, in the order they were kept."""
    return tuple(map(note_from, server.run(*notes_asked(topic, numbers))))


def notes_asked(topic: str, numbers: Sequence[str]) -> Asked:
    """What asks for them."""
    return _ABOUT, (topic, [number for number in numbers if "\0" not in number])
