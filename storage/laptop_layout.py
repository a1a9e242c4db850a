"""The tables in which a log keeps what an office and its laptops tell each other."""

TABLES = (
    """CREATE TABLE station (
        turn INTEGER PRIMARY KEY, device TEXT NOT NULL UNIQUE, name TEXT NOT NULL, person TEXT NOT NULL, days INTEGER NOT NULL,
        is_office INTEGER NOT NULL, state TEXT NOT NULL, key TEXT NOT NULL, was TEXT NOT NULL, is_awaited INTEGER NOT NULL,
        heard TEXT NOT NULL DEFAULT '{}', contested TEXT NOT NULL DEFAULT '[]', heard_at TEXT NOT NULL DEFAULT ''
    ) STRICT""",
    """CREATE TABLE operation (
        seq INTEGER PRIMARY KEY, device TEXT NOT NULL, counter INTEGER NOT NULL, before TEXT NOT NULL, act TEXT NOT NULL,
        job TEXT NOT NULL, fence INTEGER NOT NULL, after TEXT NOT NULL, at TEXT NOT NULL, body TEXT NOT NULL,
        digest TEXT NOT NULL, is_done INTEGER NOT NULL, UNIQUE (device, counter)
    ) STRICT""",
    "CREATE INDEX operation_job ON operation (job) WHERE job <> ''",
    "CREATE TABLE operation_aside (device TEXT NOT NULL, counter INTEGER NOT NULL, PRIMARY KEY (device, counter)) STRICT",
    "CREATE TABLE contested (job TEXT PRIMARY KEY) STRICT",
    """CREATE TABLE holding (
        job TEXT PRIMARY KEY, holder TEXT NOT NULL, fence INTEGER NOT NULL, tip TEXT NOT NULL, since TEXT NOT NULL,
        goes_on_as TEXT NOT NULL, goes_on_from TEXT NOT NULL, is_issued INTEGER NOT NULL
    ) STRICT""",
    "CREATE INDEX holding_holder ON holding (holder) WHERE holder <> ''",
    """CREATE TABLE matter (
        seq INTEGER PRIMARY KEY, kind TEXT NOT NULL, job TEXT NOT NULL, device TEXT NOT NULL, other TEXT NOT NULL,
        first INTEGER NOT NULL, last INTEGER NOT NULL, is_settled INTEGER NOT NULL, UNIQUE (kind, job, device, other)
    ) STRICT""",
    """CREATE TRIGGER operation_stays_on_update BEFORE UPDATE OF device, counter, body, digest ON operation BEGIN
        SELECT raise(ABORT, 'what was done stays as it was told');
    END""",
    """CREATE TRIGGER operation_stays_on_delete BEFORE DELETE ON operation BEGIN
        SELECT raise(ABORT, 'what was done stays as it was told');
    END""",
)
GUARDS = frozenset({"operation_stays_on_update", "operation_stays_on_delete"})
"""Triggers among them."""
