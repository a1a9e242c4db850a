"""Notes of people beside all jobs, and where they left each."""

from domain.log_note import LogNote
from storage.ledger import enter
from storage.ledger_entries import NOTE
from storage.line_rows import microseconds, note_from
from storage.log_file import LogFile


class SqliteNotes:
    """Fulfils `domain.log.store.NoteStore` in one file. Writes are made inside a write of the file."""

    def __init__(self, file: LogFile) -> None:
        self._file = file

    def add(self, topic: str, note: LogNote) -> None:
        """Keep a note after all that were kept before."""
        ((row,),) = self._file.run(
            "INSERT INTO note (topic, who, at, text) VALUES (?, ?, ?, ?) RETURNING id",
            (topic, note.who, microseconds(note.at), note.text),
        )
        enter(self._file, NOTE, row)

    def of(self, topic: str, who: str) -> tuple[LogNote, ...]:
        """The notes under a topic, oldest first; of everybody when nobody is named."""
        rows = self._file.run(
            "SELECT at, who, text FROM note WHERE topic = :topic AND :who IN ('', who) ORDER BY id",
            {"topic": topic, "who": who},
        )
        return tuple(note_from(row) for row in rows)

    def about(self, topic: str, number: str) -> tuple[LogNote, ...]:
        """Those notes under a topic whose text is JSON and names this job as its `number`."""
        rows = self._file.run(
            "SELECT at, who, text FROM note WHERE topic = ?"
            " AND CASE WHEN json_valid(text) THEN text ->> '$.number' END = ? ORDER BY id",
            (topic, number),
        )
        return tuple(note_from(row) for row in rows)

    def save_position(self, number: str, where: str, who: str) -> bool:
        """Where somebody left a job; False when there is no such job."""
        rows = self._file.run(
            "INSERT INTO left_off (who, job_id, place, turn)"
            " SELECT :who, id, :place, 1 + (SELECT coalesce(max(turn), 0) FROM left_off WHERE who = :who)"
            " FROM job WHERE number = :number"
            " ON CONFLICT (who, job_id) DO UPDATE SET place = excluded.place, turn = excluded.turn RETURNING turn",
            {"who": who, "place": where, "number": number},
        )
        return bool(rows)

    def position(self, number: str, who: str) -> str:
        """Where that was; "" when never opened."""
        row = self._file.first(
            "SELECT place FROM left_off WHERE who = ? AND job_id = (SELECT id FROM job WHERE number = ?)",
            (who, number),
        )
        return row[0] if row else ""

    def last_opened(self, who: str) -> str:
        """The job somebody was in last; "" when there is none."""
        row = self._file.first(
            "SELECT job.number FROM left_off JOIN job ON job.id = left_off.job_id"
            " WHERE left_off.who = ? ORDER BY left_off.turn DESC LIMIT 1",
            (who,),
        )
        return row[0] if row else ""
