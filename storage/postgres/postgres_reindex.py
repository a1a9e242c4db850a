"""What jobs on a server are found by and what is due for them, made from the jobs of those that have none of it yet."""

import json
import os
from collections.abc import Iterable, Iterator
from contextlib import closing, suppress
from itertools import pairwise
from subprocess import Popen
from typing import NamedTuple

from domain.duties.duty_days import JobDuties, duties_of
from domain.duties.duty_facts import DutyFacts, duty_facts
from domain.duties.noted import TOPIC, done_in, noted
from domain.job.job import Job
from domain.log.job_log import JobLine, JobLogError, State
from storage.child_process import start
from storage.line_rows import LINE_COLUMNS, line_from
from storage.postgres.log_server import LogServer
from storage.postgres.postgres_duties import note_rules_of_today, put_anew
from storage.postgres.postgres_jobs import DUTIES
from storage.postgres.postgres_ledger import PostgresLedger
from storage.postgres.postgres_notes import notes_about
from storage.postgres.postgres_vocabulary import learnt
from storage.postgres.server_address import ServerAddress
from storage.postgres.server_lines import Row
from storage.postgres.words import ANYWHERE, words_held
from storage.rows import stored_from

_NEXT = """
SELECT id FROM job LEFT JOIN job_text ON job_id = id WHERE job_id IS NULL AND id > %s AND id <= %s ORDER BY id LIMIT 200
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
_WORTH_A_PROCESS = 4_000
"""So many jobs are made by a process of their own, where there is a processor for one."""
_MAKING = "storage.postgres.postgres_reindex:make_part"


class _Made(NamedTuple):
    """All that is made of a job."""

    job_id: int
    words: list[str]
    facts: DutyFacts
    owed: JobDuties


def make_found_by(server: LogServer) -> None:
    """Have every job found by its words, and by the days that its duties are due; what stopped half way goes on.

    The index over the words is made anew at the end, so call it where nobody uses the log yet. A damaged job is left to
    `tend`. Where a process that makes a part of it comes to nothing, this one makes it after its own.
    """
    with server.transaction():
        server.run(_WITHOUT_INDEX)
    ((first, last),) = server.run("SELECT coalesce(min(id), 1) - 1, coalesce(max(id), 0) FROM job")
    parts = _parts(first, last)
    others = [helper for after, until in parts[1:] for helper in _started(server.address, after, until)]
    try:
        _make_between(server, *parts[0])
    finally:
        for helper in others:
            helper.wait()
    _make_between(server, first, last)
    with server.transaction():
        server.run(_INDEX)
        note_rules_of_today(server)


def make_part(url: str, schema: str, after: str, until: str) -> None:
    """What a process of its own does: the jobs after one id, until another."""
    with closing(LogServer(ServerAddress(url, schema), takes_long=True)) as server:
        _make_between(server, int(after), int(until))


def _parts(first: int, last: int) -> list[tuple[int, int]]:
    count = max(1, min(os.cpu_count() or 1, (last - first) // _WORTH_A_PROCESS))
    ends = [first + (last - first) * at // count for at in range(count + 1)]
    return [*pairwise(ends)]


def _started(address: ServerAddress, after: int, until: int) -> Iterator["Popen[bytes]"]:
    # What libpq goes by beside the address, such as on which host a server is.
    same = {name: value for name, value in os.environ.items() if name.startswith("PG")}
    with suppress(OSError):
        yield start(_MAKING, address.url, address.schema, str(after), str(until), settings=same)


def _make_between(server: LogServer, after: int, until: int) -> None:
    ledger, known = PostgresLedger(server), set[str]()
    while ids := [job_id for (job_id,) in server.run(_NEXT, (after, until))]:
        rows = server.run(_JOBS, (ids,))
        strange = ledger.strangers_among([row[1] for row in rows if row[-2] is not None])
        made = _made(server, [each for each in _read(rows) if each[2].number not in strange])
        fresh = dict.fromkeys(word for each in made for word in each.words if word.startswith(ANYWHERE))
        new = [word for word in fresh if word not in known]
        known.update(new)
        told = [each.job_id for each in made], [DUTIES.dump_json(each.facts).decode() for each in made]
        with server.transaction():
            server.run_all(
                [
                    (_WORDS, (json.dumps([(each.job_id, each.words) for each in made]),)),
                    (_DUTIES, told),
                    *learnt(new),
                ]
            )
            put_anew(server, [(each.job_id, each.owed) for each in made])
        after = ids[-1]


def _made(server: LogServer, jobs: list[tuple[int, Job, JobLine]]) -> list[_Made]:
    kept = notes_about(server, TOPIC, [line.number for _, _, line in jobs])
    notes, done = noted(note.text for note in kept), done_in(kept)
    made: list[_Made] = []
    for job_id, job, line in jobs:
        facts, owed = duty_facts(job), JobDuties()
        if line.state is not State.REPLACED and not line.laid_aside:
            owed = duties_of(facts, notes.get(line.number), done.get(line.number), put_right=line.put_right)
        made.append(_Made(job_id, words_held(job, line), facts, owed))
    return made


def _read(rows: Iterable[Row]) -> Iterator[tuple[int, Job, JobLine]]:
    for job_id, *row in rows:
        with suppress(JobLogError):
            line = line_from(tuple(row[: _OF_LINE - 1]))
            yield job_id, stored_from(line.number, tuple(row[_OF_LINE - 1 :])).job, line
