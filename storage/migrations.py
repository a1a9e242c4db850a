"""How a log file gets its layout: numbered steps, additive only, never edited once released."""

import secrets

from storage import laptop_layout, trail_layout
from storage.driver import Connection
from storage.layout import APPLICATION, LAYOUT, LINES, NEVER_RELEASED, STEPS
from storage.migrating_library import Database, Migrations
from storage.witnessing import WITNESS_TASK

steps = Migrations(STEPS)

_TABLES = (
    """CREATE TABLE device (
        id TEXT PRIMARY KEY, prefix TEXT NOT NULL UNIQUE, next_number INTEGER NOT NULL, next_op INTEGER NOT NULL,
        is_here INTEGER NOT NULL
    ) STRICT""",
    "CREATE UNIQUE INDEX device_here ON device (is_here) WHERE is_here = 1",
    """CREATE TABLE job (
        id INTEGER PRIMARY KEY, number TEXT NOT NULL UNIQUE, version INTEGER NOT NULL,
        client TEXT NOT NULL, premises TEXT NOT NULL, form_set TEXT NOT NULL,
        state TEXT NOT NULL CHECK (state IN ('draft', 'ready', 'issued', 'replaced')),
        outcome TEXT, open_snags INTEGER NOT NULL, replaces INTEGER REFERENCES job (id), updated INTEGER NOT NULL,
        due INTEGER, put_right INTEGER NOT NULL, day INTEGER, laid_aside INTEGER NOT NULL DEFAULT 0
    ) STRICT""",
    "CREATE INDEX job_updated ON job (updated)",
    "CREATE INDEX job_form_set ON job (form_set, updated)",
    "CREATE INDEX job_state ON job (state, updated)",
    "CREATE INDEX job_outcome ON job (outcome, updated)",
    "CREATE INDEX job_snagged ON job (updated) WHERE open_snags > 0",
    "CREATE INDEX job_replaces ON job (replaces) WHERE replaces IS NOT NULL",
    "CREATE INDEX job_due ON job (due) WHERE due IS NOT NULL",
    "CREATE INDEX job_laid_aside ON job (updated) WHERE laid_aside = 1",
    """CREATE INDEX job_to_put_right ON job (updated)
        WHERE state = 'issued' AND outcome IN ('unsatisfactory', 'satisfactory+FI') AND put_right = 0""",
    "CREATE TABLE draft (job_id INTEGER PRIMARY KEY REFERENCES job (id), body TEXT NOT NULL, crc INTEGER NOT NULL) STRICT",
    """CREATE TABLE edit (
        seq INTEGER PRIMARY KEY, op TEXT NOT NULL UNIQUE, job_id INTEGER NOT NULL REFERENCES job (id),
        version INTEGER NOT NULL, at INTEGER NOT NULL, who TEXT NOT NULL, what TEXT NOT NULL,
        command TEXT, begun TEXT, changes TEXT, undoes INTEGER, redoes INTEGER, UNIQUE (job_id, version)
    ) STRICT""",
    """CREATE TABLE hand (
        job_id INTEGER NOT NULL REFERENCES job (id), who TEXT NOT NULL, updated INTEGER NOT NULL,
        PRIMARY KEY (job_id, who)
    ) STRICT, WITHOUT ROWID""",
    "CREATE INDEX hand_updated ON hand (who, updated, job_id)",
    """CREATE TABLE issued (
        seq INTEGER PRIMARY KEY, job_id INTEGER NOT NULL UNIQUE REFERENCES job (id), number TEXT NOT NULL UNIQUE,
        body BLOB NOT NULL, sha BLOB NOT NULL, chain BLOB NOT NULL, pdf_sha BLOB NOT NULL, pages INTEGER NOT NULL,
        replaces TEXT UNIQUE, issued_by TEXT NOT NULL, issued_at INTEGER NOT NULL
    ) STRICT""",
    """CREATE TABLE left_off (
        who TEXT NOT NULL, job_id INTEGER NOT NULL REFERENCES job (id), place TEXT NOT NULL, turn INTEGER NOT NULL,
        PRIMARY KEY (who, job_id)
    ) STRICT, WITHOUT ROWID""",
    "CREATE INDEX left_off_turn ON left_off (who, turn)",
    """CREATE TABLE note (
        id INTEGER PRIMARY KEY, topic TEXT NOT NULL, who TEXT NOT NULL, at INTEGER NOT NULL, text TEXT NOT NULL
    ) STRICT""",
    "CREATE INDEX note_of ON note (topic, who)",
    # What a step leaves to be done once the log is open.
    "CREATE TABLE pending_task (name TEXT PRIMARY KEY) STRICT, WITHOUT ROWID",
)
_SEARCH = (
    """CREATE TABLE job_text (
        id INTEGER PRIMARY KEY REFERENCES job (id), client TEXT NOT NULL, place TEXT NOT NULL, other TEXT NOT NULL,
        facets TEXT NOT NULL
    ) STRICT""",
    # The words come folded and split, so the plainest tokenizer is the one that never splits them again.
    """CREATE VIRTUAL TABLE job_fts USING fts5 (
        client, place, other, facets, content="job_text", content_rowid="id", tokenize="ascii", prefix="2 3"
    )""",
    """CREATE TRIGGER job_text_insert AFTER INSERT ON job_text BEGIN
        INSERT INTO job_fts (rowid, client, place, other, facets)
        VALUES (new.id, new.client, new.place, new.other, new.facets);
    END""",
    """CREATE TRIGGER job_text_delete AFTER DELETE ON job_text BEGIN
        INSERT INTO job_fts (job_fts, rowid, client, place, other, facets)
        VALUES ('delete', old.id, old.client, old.place, old.other, old.facets);
    END""",
    """CREATE TRIGGER job_text_update AFTER UPDATE ON job_text BEGIN
        INSERT INTO job_fts (job_fts, rowid, client, place, other, facets)
        VALUES ('delete', old.id, old.client, old.place, old.other, old.facets);
        INSERT INTO job_fts (rowid, client, place, other, facets)
        VALUES (new.id, new.client, new.place, new.other, new.facets);
    END""",
    "CREATE VIRTUAL TABLE job_vocabulary USING fts5vocab (job_fts, 'row')",
    "CREATE TABLE term (word TEXT PRIMARY KEY) STRICT, WITHOUT ROWID",
    "CREATE TABLE near (gap TEXT NOT NULL, word TEXT NOT NULL, PRIMARY KEY (gap, word)) STRICT, WITHOUT ROWID",
)
# INSERT OR REPLACE deletes without a delete trigger on connections that have recursive triggers off.
_GUARDS = (
    """CREATE TRIGGER edit_stays_on_update BEFORE UPDATE ON edit BEGIN
        SELECT raise(ABORT, 'an edit stays as it was made');
    END""",
    # Once it is in a folded trail, the rows of an edit may go, and never come again.
    """CREATE TRIGGER edit_stays_on_delete BEFORE DELETE ON edit
    WHEN NOT EXISTS (SELECT 1 FROM folded_trail WHERE job_id = old.job_id AND last >= old.version) BEGIN
        SELECT raise(ABORT, 'an edit stays as it was made');
    END""",
    """CREATE TRIGGER edit_stays_on_insert BEFORE INSERT ON edit
    WHEN EXISTS (
        SELECT 1 FROM edit WHERE seq = new.seq OR op = new.op OR (job_id = new.job_id AND version = new.version)
        UNION ALL SELECT 1 FROM folded_trail WHERE job_id = new.job_id AND last >= new.version
    ) BEGIN
        SELECT raise(ABORT, 'an edit stays as it was made');
    END""",
    """CREATE TRIGGER issued_stays_on_update BEFORE UPDATE ON issued BEGIN
        SELECT raise(ABORT, 'what was issued stays as it is');
    END""",
    """CREATE TRIGGER issued_stays_on_delete BEFORE DELETE ON issued BEGIN
        SELECT raise(ABORT, 'what was issued stays as it is');
    END""",
    """CREATE TRIGGER issued_stays_on_insert BEFORE INSERT ON issued
    WHEN EXISTS (
        SELECT 1 FROM issued
        WHERE seq = new.seq OR job_id = new.job_id OR number = new.number OR replaces = new.replaces
    ) BEGIN
        SELECT raise(ABORT, 'what was issued stays as it is');
    END""",
    """CREATE TRIGGER job_begins_as_draft BEFORE INSERT ON job WHEN new.state NOT IN ('draft', 'ready') BEGIN
        SELECT raise(ABORT, 'a job begins as a draft');
    END""",
    """CREATE TRIGGER job_state_follows_issue BEFORE UPDATE ON job
    WHEN (new.state IN ('issued', 'replaced')) IS NOT EXISTS (SELECT 1 FROM issued WHERE job_id = new.id) BEGIN
        SELECT raise(ABORT, 'a job is issued when its paper is, and stays so');
    END""",
    """CREATE TRIGGER draft_ends_with_issue_on_insert BEFORE INSERT ON draft
    WHEN EXISTS (SELECT 1 FROM issued WHERE job_id = new.job_id) BEGIN
        SELECT raise(ABORT, 'an issued job has no draft');
    END""",
    """CREATE TRIGGER draft_ends_with_issue_on_update BEFORE UPDATE ON draft
    WHEN EXISTS (SELECT 1 FROM issued WHERE job_id = new.job_id) BEGIN
        SELECT raise(ABORT, 'an issued job has no draft');
    END""",
)


_REGISTER = (
    """CREATE TABLE register (
        seq INTEGER PRIMARY KEY, entry INTEGER NOT NULL, version INTEGER NOT NULL, kind TEXT NOT NULL,
        at INTEGER NOT NULL, who TEXT NOT NULL, retired INTEGER NOT NULL, body TEXT NOT NULL, UNIQUE (entry, version)
    ) STRICT""",
    """CREATE TABLE register_now (
        entry INTEGER PRIMARY KEY, seq INTEGER NOT NULL REFERENCES register (seq), kind TEXT NOT NULL,
        retired INTEGER NOT NULL, title TEXT NOT NULL, identity TEXT NOT NULL
    ) STRICT""",
    "CREATE INDEX register_now_title ON register_now (kind, retired, title, entry)",
    "CREATE INDEX register_now_identity ON register_now (kind, identity)",
    """CREATE TABLE register_word (
        kind TEXT NOT NULL, word TEXT NOT NULL, entry INTEGER NOT NULL, PRIMARY KEY (kind, word, entry)
    ) STRICT, WITHOUT ROWID""",
    "CREATE INDEX register_word_entry ON register_word (entry)",
    """CREATE TRIGGER register_stays_on_update BEFORE UPDATE ON register BEGIN
        SELECT raise(ABORT, 'a version of an entry stays as it was kept');
    END""",
    """CREATE TRIGGER register_stays_on_delete BEFORE DELETE ON register BEGIN
        SELECT raise(ABORT, 'a version of an entry stays as it was kept');
    END""",
    """CREATE TRIGGER register_stays_on_insert BEFORE INSERT ON register
    WHEN EXISTS (
        SELECT 1 FROM register WHERE seq = new.seq OR (entry = new.entry AND version = new.version)
    ) BEGIN
        SELECT raise(ABORT, 'a version of an entry stays as it was kept');
    END""",
    """CREATE VIEW log_registers AS
        SELECT register.entry, register.version, register.kind, register.retired,
            strftime('%Y-%m-%dT%H:%M:%SZ', register.at / 1000000, 'unixepoch') AS at, register.who,
            register_now.seq IS NOT NULL AS is_current, register.body AS document
        FROM register LEFT JOIN register_now ON register_now.seq = register.seq""",
)
# What general tools are meant to read. Moments are in UTC.
_VIEWS = (
    """CREATE VIEW log_jobs AS
        SELECT number, form_set, state, outcome, open_snags, client, premises,
            strftime('%Y-%m-%dT%H:%M:%SZ', updated / 1000000, 'unixepoch') AS updated,
            date((due - 719163) * 86400, 'unixepoch') AS next_due, put_right
        FROM job""",
    """CREATE VIEW log_trail AS
        SELECT job.number, edit.version, strftime('%Y-%m-%dT%H:%M:%SZ', edit.at / 1000000, 'unixepoch') AS at,
            edit.who, edit.what
        FROM edit JOIN job ON job.id = edit.job_id
        UNION ALL SELECT issued.number, folded_trail.last,
            strftime('%Y-%m-%dT%H:%M:%SZ', issued.issued_at / 1000000, 'unixepoch'), issued.issued_by,
            'Edits 1 to ' || folded_trail.last || ', folded: this program shows them'
        FROM folded_trail JOIN issued ON issued.job_id = folded_trail.job_id""",
    """CREATE VIEW log_issued AS
        SELECT seq, number, strftime('%Y-%m-%dT%H:%M:%SZ', issued_at / 1000000, 'unixepoch') AS issued_at, issued_by,
            pages, replaces, lower(hex(sha)) AS record_sha256, lower(hex(pdf_sha)) AS pdf_sha256,
            lower(hex(chain)) AS chain, CAST(body AS TEXT) AS document
        FROM issued""",
    """CREATE VIEW log_documents AS
        SELECT job.number, job.state, coalesce(draft.body, CAST(issued.body AS TEXT)) AS document
        FROM job LEFT JOIN draft ON draft.job_id = job.id LEFT JOIN issued ON issued.job_id = job.id""",
    """CREATE VIEW log_circuits AS
        SELECT log_documents.number, log_documents.state, board.value ->> 'designation' AS board,
            circuit.value ->> 'number' AS circuit, circuit.value ->> 'description' AS description,
            circuit.value ->> 'r1_r2' AS r1_r2, circuit.value ->> 'ir_live' AS ir_live,
            circuit.value ->> 'ir_earth' AS ir_earth, circuit.value ->> 'zs' AS zs,
            circuit.value ->> 'rcd_time' AS rcd_time, circuit.value AS document
        FROM log_documents, json_each(log_documents.document, '$.boards') AS board,
            json_each(board.value, '$.circuits') AS circuit""",
)

_LEDGER = (
    """CREATE TABLE ledger (
        seq INTEGER PRIMARY KEY, kind TEXT NOT NULL, row INTEGER NOT NULL, about TEXT NOT NULL, sha BLOB NOT NULL,
        chain BLOB NOT NULL, UNIQUE (kind, row)
    ) STRICT""",
    """CREATE TRIGGER ledger_stays_on_update BEFORE UPDATE ON ledger BEGIN
        SELECT raise(ABORT, 'what was kept stays as it was kept');
    END""",
    """CREATE TRIGGER ledger_stays_on_delete BEFORE DELETE ON ledger BEGIN
        SELECT raise(ABORT, 'what was kept stays as it was kept');
    END""",
    """CREATE TRIGGER ledger_stays_on_insert BEFORE INSERT ON ledger
    WHEN EXISTS (SELECT 1 FROM ledger WHERE seq = new.seq OR (kind = new.kind AND row = new.row)) BEGIN
        SELECT raise(ABORT, 'what was kept stays as it was kept');
    END""",
)
_DUTIES = (
    """CREATE TABLE duty_day (
        job_id INTEGER NOT NULL REFERENCES job (id), duty TEXT NOT NULL, by INTEGER NOT NULL, counted TEXT NOT NULL,
        other INTEGER, kept INTEGER NOT NULL, done_on INTEGER, done_who TEXT, done_word TEXT, PRIMARY KEY (job_id, duty, by)
    ) STRICT, WITHOUT ROWID""",
    "CREATE INDEX duty_day_by ON duty_day (by, job_id, duty, kept) WHERE done_on IS NULL",
    "CREATE INDEX duty_day_done ON duty_day (done_on, job_id, duty) WHERE done_on IS NOT NULL",
    """CREATE TABLE duty_job (
        job_id INTEGER PRIMARY KEY REFERENCES job (id), asks TEXT NOT NULL, contact TEXT NOT NULL
    ) STRICT""",
    "CREATE INDEX duty_job_asks ON duty_job (job_id) WHERE asks <> ''",
    # By which rules the days were counted; while it holds none, they are counted once they are asked for.
    "CREATE TABLE duty_rules (version TEXT PRIMARY KEY) STRICT, WITHOUT ROWID",
    "CREATE INDEX note_about ON note (topic, CASE WHEN json_valid(text) THEN text ->> '$.number' END)",
)


@steps()
def m001_job_log(db: Database) -> None:
    """Jobs and all that belongs to them, registers, notes, the ledger over what is kept for good, views for general tools.

    The tables of `laptop_layout` stay empty in a log that stands alone.
    """
    kept = (*_TABLES, *_SEARCH, *_REGISTER, *_LEDGER, *_DUTIES, *laptop_layout.TABLES, *trail_layout.TABLES)
    for statement in (*kept, *_GUARDS, *_VIEWS):
        db.conn.execute(statement)
    db.conn.execute(
        "INSERT INTO device (id, prefix, next_number, next_op, is_here) VALUES (?, 'A', 1, 1, 1)",
        [secrets.token_hex(8)],
    )
    # Of lines there are none yet; with them it is kept by which rules days are counted.
    db.conn.execute("INSERT INTO pending_task (name) VALUES (?), (?)", [WITNESS_TASK, LINES])


def migrate(connection: Connection, layout: int = LAYOUT) -> None:
    """Bring a log file up to this program's layout, or an earlier one, inside the write the caller has begun."""
    database = Database(connection, execute_plugins=False)
    following = [step.name for step in steps.pending(database)][max(layout - NEVER_RELEASED, 0) :]
    steps.apply(database, stop_before=following[0] if following else None)
    connection.execute(f"PRAGMA application_id = {APPLICATION}")
    connection.execute(f"PRAGMA user_version = {layout}")
