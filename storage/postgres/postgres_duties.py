"""The days that duties are due, on a server: written with each job, found by an index of the day."""

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

from domain.duties.duty_days import JobDuties, duties_of, rules_version
from domain.duties.noted import TOPIC, done_in, noted
from domain.log.due_days import DueAsked, DueRow, UnansweredRow
from domain.log.job_log import State
from storage.duty_rows import DAY_COLUMNS, day_from, day_values, due_rows, unanswered_rows
from storage.postgres.log_server import LogServer, askable
from storage.postgres.postgres_jobs import DUTIES
from storage.postgres.postgres_notes import notes_about
from storage.postgres.transaction import Asked

_JOBS_AT_ONCE = 200
"""Nobody edits these while their days are counted anew."""
_DAYS = f"""
SELECT job.number, job.form_set, job.client, job.premises, coalesce(duty_job.contact, ''), {DAY_COLUMNS}
FROM duty_day JOIN job ON job.id = duty_day.job_id LEFT JOIN duty_job ON duty_job.job_id = duty_day.job_id
WHERE kept IN (%(kept)s, %(other)s) AND """
_DUE = (
    "done_on IS NULL AND by <= %(until)s AND (by, duty_day.job_id, duty) > (%(day)s, %(job)s, %(duty)s)"
    " ORDER BY by, duty_day.job_id, duty LIMIT %(limit)s"
)
_DONE = (
    "done_on IS NOT NULL AND by BETWEEN %(since)s AND %(until)s"
    " AND (done_on, duty_day.job_id, duty) < (%(day)s, %(job)s, %(duty)s)"
    " ORDER BY done_on DESC, duty_day.job_id DESC, duty DESC LIMIT %(limit)s"
)
_UNANSWERED = """
SELECT number, client, premises, contact, asks FROM duty_job JOIN job ON job.id = job_id
WHERE asks <> '' AND job_id > coalesce((SELECT id FROM job WHERE number = %s), 0) ORDER BY job_id LIMIT %s
"""
_HELD = f"""
SELECT asks, contact, {DAY_COLUMNS} FROM duty_job LEFT JOIN duty_day ON duty_day.job_id = duty_job.job_id
WHERE duty_job.job_id = (SELECT id FROM job WHERE number = %s) ORDER BY done_on IS NOT NULL, by, duty
"""
_ADD_DAY = f"""
INSERT INTO duty_day (job_id, {DAY_COLUMNS}) VALUES (%s, %s, %s, %s, %s, %s, %s, %s, %s)
ON CONFLICT (job_id, duty, by) DO UPDATE SET counted = excluded.counted, other = excluded.other, kept = excluded.kept,
    done_on = excluded.done_on, done_who = excluded.done_who, done_word = excluded.done_word
"""
_ADD_JOB = """
INSERT INTO duty_job (job_id, asks, contact) VALUES (%s, %s, %s)
ON CONFLICT (job_id) DO UPDATE SET asks = excluded.asks, contact = excluded.contact
"""
_ADD_DAYS = f"""
INSERT INTO duty_day (job_id, {DAY_COLUMNS}) SELECT * FROM unnest(%s::bigint[], %s::text[], %s::integer[], %s::text[],
    %s::integer[], %s::smallint[], %s::integer[], %s::text[], %s::text[])
"""
_ADD_JOBS = """
INSERT INTO duty_job (job_id, asks, contact) SELECT * FROM unnest(%s::bigint[], %s::text[], %s::text[])
ON CONFLICT (job_id) DO UPDATE SET asks = excluded.asks, contact = excluded.contact
"""
_TURN = "SELECT pg_advisory_xact_lock(hashtext('ohmfolio duties'), hashtext(current_schema()))"
_LOCK_NEXT = f"SELECT id FROM job WHERE id > %s ORDER BY id LIMIT {_JOBS_AT_ONCE} FOR NO KEY UPDATE"
_TOLD = (
    "SELECT id, number, state, laid_aside, put_right, duties FROM job WHERE id = ANY(%s) AND duties <> '' ORDER BY id"
)


class PostgresDuties:
    """Fulfils `domain.log.store.DutyStore`. Writes are made inside a transaction that has locked the job."""

    def __init__(self, server: LogServer) -> None:
        self._server = server

    def put(self, number: str, owed: JobDuties) -> None:
        """What is due for a job now; nothing is written where that is what stands there."""
        if duties_held(self._server, number) != owed:
            ((job_id,),) = self._server.run("SELECT id FROM job WHERE number = %s", (number,))
            self._server.run_all(_writing(job_id, owed))

    def rows(self, asked: DueAsked) -> Iterator[DueRow]:
        """Days in their order, a page at a time."""
        write_by_rules_of_today(self._server)
        statement = f"{_DAYS}{_DONE if asked.done else _DUE}"
        return due_rows(asked, lambda values: self._server.run(statement, values), self._place)

    def counted(self) -> Iterator[tuple[date, bool, int]]:
        """How much is due on each day, counted where the index lies."""
        write_by_rules_of_today(self._server)
        rows = self._server.run("SELECT by, kept, count(*) FROM duty_day WHERE done_on IS NULL GROUP BY by, kept")
        return ((date.fromordinal(by), bool(kept), count) for by, kept, count in rows)

    def unanswered(self, after: str, limit: int | None) -> Iterator[UnansweredRow]:
        """Jobs that ask for an answer, the oldest first."""
        write_by_rules_of_today(self._server)
        return unanswered_rows(
            after, limit, lambda number, size: self._server.run(_UNANSWERED, (askable(number), size))
        )

    def count_unanswered(self) -> int:
        """How many there are."""
        write_by_rules_of_today(self._server)
        ((counted,),) = self._server.run("SELECT count(*) FROM duty_job WHERE asks <> ''")
        return counted

    def _place(self, after: tuple[date, str, str]) -> dict[str, int | str]:
        day, number, duty = after
        row = self._server.first("SELECT id FROM job WHERE number = %s", (askable(number),))
        return {"day": day.toordinal(), "job": row[0] if row else 0, "duty": duty}


def duties_asked(number: str) -> Asked:
    """What asks for what stands in the log as due for a job."""
    return _HELD, (number,)


def duties_held(server: LogServer, number: str) -> JobDuties | None:
    """What stands in the log as due for a job, the days in the order of `JobDuties`; None where nothing was written."""
    rows = server.run(*duties_asked(number))
    if not rows:
        return None
    asks, contact, *_ = rows[0]
    return JobDuties(tuple(day_from(tuple(day)) for _, _, *day in rows if day[0] is not None), asks, contact)


def are_by_rules_of_today(server: LogServer) -> bool:
    """The days that are kept were counted by the rules of this program."""
    return server.first("SELECT 1 FROM duty_rules WHERE version = %s", (rules_version(),)) is not None


def write_by_rules_of_today(server: LogServer) -> None:
    """Write the days of every job anew where other rules counted them, or nothing was counted yet.

    Some jobs at a time, so that nobody waits for long; what stopped half way is begun again when it is asked for next.
    """
    after: int | None = 0
    while after is not None and not are_by_rules_of_today(server):
        with server.transaction((_TURN, ())):
            # Somebody else may have done it meanwhile.
            after = None if are_by_rules_of_today(server) else _write_next(server, after)


def _write_next(server: LogServer, after: int) -> int | None:
    """Write the days of the next jobs anew, and the last of them; None once there are no more, and that is kept."""
    found = [job_id for (job_id,) in server.run(_LOCK_NEXT, (after,))]
    if not found:
        note_rules_of_today(server)
        return None
    jobs = server.run(_TOLD, (found,))
    kept = notes_about(server, TOPIC, [number for _, number, *_ in jobs])
    notes, done = noted(note.text for note in kept), done_in(kept)
    all_owed: list[tuple[int, JobDuties]] = []
    for job_id, number, state, laid_aside, put_right, told in jobs:
        owed = JobDuties()
        if state != State.REPLACED and not laid_aside:
            facts = DUTIES.validate_json(told)
            owed = duties_of(facts, notes.get(number), done.get(number), put_right=bool(put_right))
        all_owed.append((job_id, owed))
    put_anew(server, all_owed)
    return found[-1]


def note_rules_of_today(server: LogServer) -> None:
    """Keep that the days of all jobs were counted by them. Call it inside a transaction."""
    server.run_all(
        (("DELETE FROM duty_rules", ()), ("INSERT INTO duty_rules (version) VALUES (%s)", (rules_version(),)))
    )


def put_anew(server: LogServer, owed: Sequence[tuple[int, JobDuties]]) -> None:
    """What is due for many jobs, in the place of what stood there. Call it inside a transaction that has locked them."""
    ids = [job_id for job_id, _ in owed]
    days = [(job_id, *day_values(day)) for job_id, each in owed for day in each.days]
    columns = [*zip(*days, strict=True)] if days else [()] * (1 + len(DAY_COLUMNS.split(",")))
    jobs = ids, [each.asks for _, each in owed], [each.contact for _, each in owed]
    server.run_all(
        [
            ("DELETE FROM duty_day WHERE job_id = ANY(%s)", (ids,)),
            (_ADD_DAYS, [*map(list, columns)]),
            (_ADD_JOBS, jobs),
        ]
    )


def _writing(job_id: int, owed: JobDuties) -> list[tuple[str, Any]]:
    """What puts the days of a job in the place of those that were."""
    return [
        ("DELETE FROM duty_day WHERE job_id = %s", (job_id,)),
        *((_ADD_DAY, (job_id, *day_values(day))) for day in owed.days),
        (_ADD_JOB, (job_id, owed.asks, owed.contact)),
    ]
