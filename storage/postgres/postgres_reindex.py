"""What jobs on a server are found by, made from the jobs of those that have none of it yet."""

from contextlib import suppress

from domain.log.job_log import JobLogError
from storage.postgres.log_server import LogServer, Values
from storage.postgres.postgres_jobs import PostgresJobs

_JOBS = """
SELECT id, job.number FROM job LEFT JOIN job_text ON job_id = id WHERE job_id IS NULL AND id > %s ORDER BY id LIMIT 200
"""


def make_words(server: LogServer) -> None:
    """Have every job found by its words; what stopped half way goes on. A damaged job is left to `tend`."""
    jobs, after = PostgresJobs(server), 0
    while rows := server.run(_JOBS, (after,)):
        statements: list[tuple[str, Values]] = []
        for job_id, number in rows:
            with suppress(JobLogError):
                statements += jobs.words_of(job_id, number)
        with server.transaction():
            server.run_all(statements)
        after = rows[-1][0]
