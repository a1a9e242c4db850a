"""What jobs on a server are found by, made from the jobs of those that have none of it yet, many at a time."""

import json
from collections.abc import Iterable, Iterator
from contextlib import suppress

from domain.job.job import Job
from domain.log.job_log import JobLine, JobLogError
from storage.line_rows import LINE_COLUMNS, line_from
from storage.postgres.log_server import LogServer
from storage.postgres.postgres_jobs import duties_told
from storage.postgres.postgres_ledger import PostgresLedger
from storage.postgres.postgres_vocabulary import learnt
from storage.postgres.server_lines import Row
from storage.postgres.words import ANYWHERE, words_held
from storage.rows import stored_from

_NEXT = """
SELECT id FROM job LEFT JOIN job_text ON job_id = id WHERE job_id IS NULL AND id > %s ORDER BY id LIMIT 200
"""
_LINE = ", ".join(f"job.{column.strip()}" for column in LINE_COLUMNS.split(","))
_JOBS = f"""
SELECT job.id, {_LINE}, job.version, job.state, '', '', job.put_right, draft.body, draft.crc, issued.body, issued.sha
FROM job LEFT JOIN draft ON draft.job_id = job.id LEFT JOIN issued ON issued.job_id = job.id
WHERE job.id = ANY(%s) ORDER BY job.id
"""
_OF_LINE = 1 + len(LINE_COLUMNS.split(","))
_WORDS = """
INSERT INTO job_text (job_id, words)
SELECT (told ->> 0)::bigint, array_to_tsvector(ARRAY(SELECT jsonb_array_elements_text(told -> 1)))
FROM jsonb_array_elements(%s::jsonb) AS told ON CONFLICT (job_id) DO UPDATE SET words = excluded.words
"""
_DUTIES = """
UPDATE job SET duties = told.duties FROM unnest(%s::bigint[], %s::text[]) AS told (id, duties) WHERE job.id = told.id
"""
_WITHOUT_INDEX = "DROP INDEX IF EXISTS job_text_words"
_INDEX = "CREATE INDEX IF NOT EXISTS job_text_words ON job_text USING gin (words) WITH (fastupdate = off)"
"""As the layout has it: made over all words at once, it takes a tenth of the time that as many entries take."""


def make_words(server: LogServer) -> None:
    """Have every job found by its words; what stopped half way goes on. A damaged job is left to `tend`.

    The index over them is made anew at the end, so call it where nobody uses the log yet.
    """
    ledger, known, after = PostgresLedger(server), set[str](), 0
    with server.transaction():
        server.run(_WITHOUT_INDEX)
    while ids := [job_id for (job_id,) in server.run(_NEXT, (after,))]:
        rows = server.run(_JOBS, (ids,))
        strange = ledger.strangers_among([row[1] for row in rows if row[-2] is not None])
        found = [(*each, words_held(each[1], each[2])) for each in _read(rows) if each[2].number not in strange]
        fresh = dict.fromkeys(word for *_, words in found for word in words if word.startswith(ANYWHERE))
        new = [word for word in fresh if word not in known]
        known.update(new)
        with server.transaction():
            server.run(_WORDS, (json.dumps([(job_id, words) for job_id, _, _, words in found]),))
            server.run(_DUTIES, ([each[0] for each in found], [duties_told(job) for _, job, _, _ in found]))
            server.run_all([*learnt(new)])
        after = ids[-1]
    with server.transaction():
        server.run(_INDEX)


def _read(rows: Iterable[Row]) -> Iterator[tuple[int, Job, JobLine]]:
    for job_id, *row in rows:
        with suppress(JobLogError):
            line = line_from(tuple(row[: _OF_LINE - 1]))
            yield job_id, stored_from(line.number, tuple(row[_OF_LINE - 1 :])).job, line
