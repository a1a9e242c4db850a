"""The step by which a log on a server keeps trails folded, and lets the rows of an edit go once it is in there."""

FOLDED = (
    """CREATE TABLE folded_trail (
        job_id bigint PRIMARY KEY REFERENCES job (id), begun_as text COLLATE "C" NOT NULL UNIQUE, last integer NOT NULL,
        edits bytea NOT NULL
    )""",
    # It is compressed already.
    "ALTER TABLE folded_trail ALTER COLUMN edits SET STORAGE EXTERNAL",
    """CREATE TRIGGER folded_trail_stays BEFORE UPDATE OR DELETE OR TRUNCATE ON folded_trail
        FOR EACH STATEMENT EXECUTE FUNCTION stays()""",
    """CREATE FUNCTION stays_unless_folded() RETURNS trigger LANGUAGE plpgsql SET search_path FROM CURRENT AS $$
        BEGIN
            IF NOT EXISTS (SELECT 1 FROM folded_trail WHERE job_id = old.job_id AND last >= old.version) THEN
                RAISE EXCEPTION 'edit stays as it was kept';
            END IF;
            RETURN old;
        END $$""",
    "DROP TRIGGER edit_stays ON edit",
    "CREATE TRIGGER edit_stays BEFORE UPDATE OR TRUNCATE ON edit FOR EACH STATEMENT EXECUTE FUNCTION stays()",
    """CREATE TRIGGER edit_stays_unless_folded BEFORE DELETE ON edit
        FOR EACH ROW EXECUTE FUNCTION stays_unless_folded()""",
    # Whoever may read trails may read them folded.
    """DO $$ DECLARE reader record; BEGIN
        FOR reader IN SELECT DISTINCT grantee FROM information_schema.role_table_grants
            WHERE table_schema = current_schema() AND table_name = 'edit' AND privilege_type = 'SELECT' LOOP
            EXECUTE format('GRANT SELECT ON folded_trail TO %I', reader.grantee);
        END LOOP; END $$""",
)
FOLDED_GUARDS = frozenset({"edit_stays_unless_folded", "folded_trail_stays"})
"""Triggers that are new among them."""
