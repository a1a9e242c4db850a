"""The table in which a log keeps trails folded, and what lets the rows of an edit go once it is in there."""

TABLES = (
    """CREATE TABLE folded_trail (
        job_id INTEGER PRIMARY KEY REFERENCES job (id), begun_as TEXT NOT NULL UNIQUE, last INTEGER NOT NULL,
        edits BLOB NOT NULL
    ) STRICT""",
    """CREATE TRIGGER folded_trail_stays_on_update BEFORE UPDATE ON folded_trail BEGIN
        SELECT raise(ABORT, 'an edit stays as it was made');
    END""",
    """CREATE TRIGGER folded_trail_stays_on_delete BEFORE DELETE ON folded_trail BEGIN
        SELECT raise(ABORT, 'an edit stays as it was made');
    END""",
    """CREATE TRIGGER folded_trail_stays_on_insert BEFORE INSERT ON folded_trail
    WHEN NOT EXISTS (SELECT 1 FROM issued WHERE job_id = new.job_id)
        OR EXISTS (SELECT 1 FROM folded_trail WHERE job_id = new.job_id OR begun_as = new.begun_as) BEGIN
        SELECT raise(ABORT, 'an edit stays as it was made');
    END""",
    "DROP TRIGGER edit_stays_on_delete",
    """CREATE TRIGGER edit_stays_on_delete BEFORE DELETE ON edit
    WHEN NOT EXISTS (SELECT 1 FROM folded_trail WHERE job_id = old.job_id AND last >= old.version) BEGIN
        SELECT raise(ABORT, 'an edit stays as it was made');
    END""",
    "DROP TRIGGER edit_stays_on_insert",
    """CREATE TRIGGER edit_stays_on_insert BEFORE INSERT ON edit
    WHEN EXISTS (
        SELECT 1 FROM edit WHERE seq = new.seq OR op = new.op OR (job_id = new.job_id AND version = new.version)
        UNION ALL SELECT 1 FROM folded_trail WHERE job_id = new.job_id AND last >= new.version
    ) BEGIN
        SELECT raise(ABORT, 'an edit stays as it was made');
    END""",
    "DROP VIEW log_trail",
    """CREATE VIEW log_trail AS
        SELECT job.number, edit.version, strftime('%Y-%m-%dT%H:%M:%SZ', edit.at / 1000000, 'unixepoch') AS at,
            edit.who, edit.what
        FROM edit JOIN job ON job.id = edit.job_id
        UNION ALL SELECT issued.number, folded_trail.last,
            strftime('%Y-%m-%dT%H:%M:%SZ', issued.issued_at / 1000000, 'unixepoch'), issued.issued_by,
            'Edits 1 to ' || folded_trail.last || ', folded: this program shows them'
        FROM folded_trail JOIN issued ON issued.job_id = folded_trail.job_id""",
)
GUARDS = frozenset({"folded_trail_stays_on_update", "folded_trail_stays_on_delete", "folded_trail_stays_on_insert"})
"""Triggers that are new among them."""
