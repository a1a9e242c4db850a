"""The job log of an office on a PostgreSQL server: one schema a firm, papers in it with their records."""
