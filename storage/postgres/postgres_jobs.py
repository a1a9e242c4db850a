"""Jobs on a server: read as they stand, put with each edit, stepped through by the edits of a person."""

from collections.abc import Iterable, Sequence
from typing import Any

from pydantic import TypeAdapter

from domain.duties.duty_facts import DutyFacts, duty_facts
from domain.editing.commands import COMMAND
from domain.editing.undo import Edit
from domain.job.job import Job
from domain.log.job_log import JobLine
from domain.log.store import StoredJob, TrailEntry
from storage.errors import not_issued_here
from storage.ledger_entries import EDIT
from storage.line_rows import line_values, microseconds
from storage.postgres.log_server import LogServer
from storage.postgres.postgres_ledger import PostgresLedger, is_vouched_for, vouching_of
from storage.postgres.postgres_trails import trail_of
from storage.postgres.postgres_vocabulary import learnt
from storage.postgres.transaction import Asked
from storage.postgres.words import words_held
from storage.rows import checksum, draft_of, edit_from, stored_from

_STORED = """
SELECT job.version, job.state, old.number, (SELECT later.number FROM job AS later WHERE later.replaces = job.id),
    job.put_right, draft.body, draft.crc, issued.body, issued.sha
FROM job LEFT JOIN draft ON draft.job_id = job.id LEFT JOIN issued ON issued.job_id = job.id
    LEFT JOIN job AS old ON old.id = job.replaces
WHERE job.number = %s
"""
LOCK = "SELECT id FROM job WHERE number = ANY(%s) ORDER BY id FOR NO KEY UPDATE"
"""Lock first, then read by another statement: one that does both reads what stood before it had to wait."""
_WORDS_HELD = "SELECT tsvector_to_array(words) FROM job_text JOIN job ON job.id = job_text.job_id WHERE number = %s"
_ID = "SELECT id FROM job WHERE number = %s"
_TURN = "SELECT nextval(pg_get_serial_sequence('edit', 'seq'))"
"""Which row of the trail an edit is to be."""
_TURNS = f"{_TURN} FROM generate_series(1, %s)"
_NAME = "SELECT device.id || ':' || nextval('edit_name') FROM device WHERE is_here"
"""Under which name an edit is kept that nobody named."""
_INSERT = """
INSERT INTO job (number, version, client, premises, form_set, state, outcome, open_snags, replaces, updated, due,
    put_right, day, laid_aside, duties)
VALUES (%(number)s, %(version)s, %(client)s, %(premises)s, %(form_set)s, %(state)s, %(outcome)s, %(open_snags)s,
    (SELECT id FROM job WHERE number = %(replaces)s), %(updated)s, %(due)s, %(put_right)s, %(day)s, %(laid_aside)s, %(duties)s)
RETURNING id
"""
_UPDATE = """
UPDATE job SET version = %(version)s, client = %(client)s, premises = %(premises)s, form_set = %(form_set)s,
    state = %(state)s, outcome = %(outcome)s, open_snags = %(open_snags)s, updated = %(updated)s, due = %(due)s,
    put_right = %(put_right)s, day = %(day)s, laid_aside = %(laid_aside)s, duties = %(duties)s
WHERE id = %(id)s
"""
_DRAFT = """
INSERT INTO draft (job_id, body, crc) VALUES (%(id)s, %(body)s, %(crc)s)
ON CONFLICT (job_id) DO UPDATE SET body = excluded.body, crc = excluded.crc
"""
_WORDS = """
INSERT INTO job_text (job_id, words) VALUES (%(id)s, array_to_tsvector(%(words)s::text[]))
ON CONFLICT (job_id) DO UPDATE SET words = excluded.words
"""
_EDIT = """
INSERT INTO edit (seq, op, job_id, version, at, who, what, command, begun, changes, undoes, redoes)
VALUES (%(seq)s, %(op)s, %(id)s, %(version)s, %(at)s, %(who)s, %(what)s, %(command)s, %(begun)s, %(changes)s, %(undoes)s,
    %(redoes)s)
"""
_HANDS = "UPDATE hand SET updated = %(at)s WHERE job_id = %(id)s"
_HAND = "INSERT INTO hand (job_id, who, updated) VALUES (%(id)s, %(who)s, %(at)s) ON CONFLICT DO NOTHING"
_RECORD = 7
"""Where in a row of a job the body of an issued record stands."""
_KEPT = ("op", "version", "at", "who", "what", "command", "begun", "changes", "undoes", "redoes")
"""Of an edit, all that the ledger goes by."""
DUTIES = TypeAdapter(DutyFacts)
"""What the duties of a job hang on, as the log keeps it beside the line."""


class PostgresJobs:
    """What a store is asked of whole jobs. Writes are made inside a transaction."""

    def __init__(self, server: LogServer) -> None:
        self._server = server
        self._ledger = PostgresLedger(server)

    def get(self, number: str) -> StoredJob | None:
        """The job with this number, as it stands now; inside a transaction nobody else changes it until that ends."""
        if "\0" in number:
            return None
        if self._server.in_transaction:
            self._server.run(LOCK, ([number],))
            rows, vouching = self._server.run(_STORED, (number,)), None
        else:
            rows, vouching = self._server.answers((_STORED, (number,)), vouching_of(number))
        if not rows:
            return None
        stored = stored_from(number, rows[0])
        if rows[0][_RECORD] is not None:
            is_ours = self._ledger.vouches_for(number) if vouching is None else is_vouched_for(vouching)
            if not is_ours:
                raise not_issued_here(number)
        return stored

    def put(self, stored: StoredJob, line: JobLine, *entries: TrailEntry) -> None:
        """Keep a job as it stands now, its line, its search words and the edits that made it so."""
        begun, version = not stored.version, stored.version + len(entries)
        words = words_held(stored.job, line)
        values = line_values(line) | {
            "version": version,
            "replaces": stored.replaces,
            "duties": duties_told(stored.job),
        }
        if begun:
            held = frozenset[str]()
            turns, ((job_id,),) = self._server.answers(_turns(entries), (_INSERT, values))
        else:
            held = self._words_held(line.number)
            turns, ((job_id,),) = self._server.run(*_turns(entries)), self._server.run(_ID, (line.number,))
            self._server.run_all([(_UPDATE, values | {"id": job_id})])
        body = "" if stored.is_issued else draft_of(stored.job)
        edits: list[dict[str, Any]] = []
        for at, (entry, (seq,)) in enumerate(zip(entries, turns, strict=True), stored.version + 1):
            edit = _row_of(entry, body if at == 1 else "") | {"id": job_id, "seq": seq, "version": at}
            edits.append(edit | {"op": entry.op or self._server.run(_NAME)[0][0]})
        found_by = [(_WORDS, {"id": job_id, "words": words}), *learnt(word for word in words if word not in held)]
        self._server.run_all(
            [
                ("DELETE FROM draft WHERE job_id = %(id)s", {"id": job_id})
                if stored.is_issued
                else (_DRAFT, {"id": job_id, "body": body, "crc": checksum(body)}),
                *((_EDIT, edit) for edit in edits),
                (_HANDS, edits[-1]),
                *((_HAND, edit | {"at": edits[-1]["at"]}) for edit in {each["who"]: each for each in edits}.values()),
                *(found_by if held != frozenset(words) else ()),
            ]
        )
        for edit in edits:
            self._ledger.enter(EDIT, edit["seq"], line.number, [edit[name] for name in _KEPT])

    def _words_held(self, number: str) -> frozenset[str]:
        rows = self._server.run(_WORDS_HELD, (number,))
        return frozenset(rows[0][0]) if rows else frozenset()

    def edits(self, number: str, who: str) -> Iterable[Edit]:
        """What somebody did to a job, oldest first."""
        return (edit_from(each) for each in trail_of(self._server, number) if each.who == who)


def _turns(entries: Sequence[TrailEntry]) -> Asked:
    """What asks which rows of the trail edits are to be."""
    return (_TURN, ()) if len(entries) == 1 else (_TURNS, (len(entries),))


def asked_of(number: str) -> list[Asked]:
    """What whoever is about to change a job asks of it, once it is locked."""
    return [(LOCK, ([number],)), (_STORED, (number,)), (_WORDS_HELD, (number,)), (_ID, (number,)), (_TURN, ())]


def duties_told(job: Job) -> str:
    """What the duties of a job hang on, as its row keeps it."""
    return DUTIES.dump_json(duty_facts(job)).decode()


def _row_of(entry: TrailEntry, begun: str) -> dict[str, Any]:
    """What the trail keeps of an edit."""
    return {
        "at": microseconds(entry.at),
        "who": entry.who,
        "what": entry.what,
        "command": COMMAND.dump_json(entry.command).decode() if entry.command else None,
        "begun": begun or None,
        "changes": entry.changes or None,
        "undoes": entry.undoes or None,
        "redoes": entry.redoes or None,
    }
