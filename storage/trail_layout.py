"""The table in which a log keeps the trail of an issued job, folded into one block."""

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
)
GUARDS = frozenset({"folded_trail_stays_on_update", "folded_trail_stays_on_delete", "folded_trail_stays_on_insert"})
"""Triggers among them."""
