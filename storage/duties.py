"""The days that duties are due, in tables of their own beside the lines of the log, with an index by the day."""

from collections.abc import Collection, Iterator
from contextlib import suppress
from datetime import date

from domain.duties.duty_days import JobDuties, duties_of, rules_version
from domain.duties.noted import TOPIC, done_in, noted
from domain.log.due_days import DueAsked, DueRow, UnansweredRow
from storage.duty_rows import DAY_COLUMNS, day_from, day_values, due_rows, unanswered_rows
from storage.errors import DamagedError
from storage.line_rows import note_from
from storage.log_file import LogFile
from storage.rows import DATED, dated_from

_PAGE = 1000
_DAYS = f"""
SELECT job.number, job.form_set, job.client, job.premises, coalesce(duty_job.contact, ''), {DAY_COLUMNS}
FROM duty_day JOIN job ON job.id = duty_day.job_id LEFT JOIN duty_job ON duty_job.job_id = duty_day.job_id
WHERE """
_DUE = (
    "done_on IS NULL AND by <= :until AND kept IN (:kept, :other) AND (by, duty_day.job_id, duty) > (:day, :job, :duty)"
    " ORDER BY by, duty_day.job_id, duty LIMIT :limit"
)
_DONE = (
    "done_on IS NOT NULL AND by BETWEEN :since AND :until AND kept IN (:kept, :other) AND (done_on, duty_day.job_id, duty) < (:day, :job, :duty)"
    " ORDER BY done_on DESC, duty_day.job_id DESC, duty DESC LIMIT :limit"
)


_UNANSWERED = """
SELECT number, client, premises, contact, asks FROM duty_job JOIN job ON job.id = job_id
WHERE asks <> '' AND job_id > coalesce((SELECT id FROM job WHERE number = ?), 0) ORDER BY job_id LIMIT ?
"""


class SqliteDuties:
    """Fulfils `domain.log.store.DutyStore` in one file. Writes are made inside a write of the file."""

    def __init__(self, file: LogFile) -> None:
        self._file = file

    def put(self, number: str, owed: JobDuties) -> None:
        """What is due for a job now; nothing is written where that is what stands there."""
        ((job_id,),) = self._file.run("SELECT id FROM job WHERE number = ?", (number,))
        put_duties(self._file, job_id, owed)

    def rows(self, asked: DueAsked) -> Iterator[DueRow]:
        """Days in their order, a page at a time."""
        write_by_rules_of_today(self._file)
        statement = f"{_DAYS}{_DONE if asked.done else _DUE}"
        return due_rows(asked, lambda values: self._file.run(statement, values), self._place)

    def counted(self) -> Iterator[tuple[date, bool, int]]:
        """How much is due on each day, counted where the index lies."""
        write_by_rules_of_today(self._file)
        rows = self._file.run("SELECT by, kept, count(*) FROM duty_day WHERE done_on IS NULL GROUP BY by, kept")
        return ((date.fromordinal(by), bool(kept), count) for by, kept, count in rows)

    def unanswered(self, after: str, limit: int | None) -> Iterator[UnansweredRow]:
        """Jobs that ask for an answer, the oldest first."""
        write_by_rules_of_today(self._file)
        return unanswered_rows(after, limit, lambda number, size: self._file.run(_UNANSWERED, (number, size)))

    def count_unanswered(self) -> int:
        """How many there are."""
        write_by_rules_of_today(self._file)
        ((counted,),) = self._file.run("SELECT count(*) FROM duty_job WHERE asks <> ''")
        return counted

    def _place(self, after: tuple[date, str, str]) -> dict[str, int | str]:
        day, number, duty = after
        row = self._file.first("SELECT id FROM job WHERE number = ?", (number,))
        return {"day": day.toordinal(), "job": row[0] if row else 0, "duty": duty}


def put_duties(file: LogFile, job_id: int, owed: JobDuties) -> None:
    """What is due for a job now, in the place of what was. Call it inside a write."""
    if duties_held(file, job_id) == owed:
        return
    file.run("DELETE FROM duty_day WHERE job_id = ?", (job_id,))
    for day in owed.days:
        file.run(
            f"INSERT OR REPLACE INTO duty_day (job_id, {DAY_COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
            (job_id, *day_values(day)),
        )
    file.run(
        "INSERT INTO duty_job (job_id, asks, contact) VALUES (?, ?, ?)"
        " ON CONFLICT (job_id) DO UPDATE SET asks = excluded.asks, contact = excluded.contact",
        (job_id, owed.asks, owed.contact),
    )


def duties_held(file: LogFile, job_id: int) -> JobDuties | None:
    """What stands in the log as due for a job, the days in the order of `JobDuties`; None where nothing does, or no days."""
    kept = file.first("SELECT asks, contact FROM duty_job WHERE job_id = ?", (job_id,))
    if kept is None:
        return None
    rows = file.run(
        f"SELECT {DAY_COLUMNS} FROM duty_day WHERE job_id = ? ORDER BY done_on IS NOT NULL, by, duty", (job_id,)
    )
    with suppress(DamagedError):
        return JobDuties(tuple(day_from(row) for row in rows), *kept)
    return None


def write_by_rules_of_today(file: LogFile) -> None:
    """Write the days of every job anew where other rules counted them, or an earlier layout kept none."""
    if file.refuses or are_by_rules_of_today(file):
        return
    with file.writing():
        write_duties_anew(file)


def are_by_rules_of_today(file: LogFile) -> bool:
    """The days that are kept were counted by the rules of this program."""
    return file.first("SELECT 1 FROM duty_rules WHERE version = ?", (rules_version(),)) is not None


def write_duties_anew(file: LogFile, besides: Collection[str] = ()) -> None:
    """Write the days of every job anew from its document and its notes, but for some. Call it inside a write."""
    # Notes are few beside jobs, and a job's days hang on all of its own.
    kept = [note_from(row) for row in file.run("SELECT at, who, text FROM note WHERE topic = ? ORDER BY id", (TOPIC,))]
    notes, done = noted(note.text for note in kept), done_in(kept)
    after = 0
    while rows := file.run(f"{DATED} AND job.id > ? ORDER BY job.id LIMIT ?", (after, _PAGE)):
        for job_id, *row in rows:
            line, told = dated_from(tuple(row))
            if line.number not in besides:
                found = duties_of(told, notes.get(line.number), done.get(line.number), put_right=line.put_right)
                put_duties(file, job_id, found)
        after = rows[-1][0]
    out = "SELECT id FROM job WHERE state = 'replaced' OR laid_aside = 1"
    file.run(f"DELETE FROM duty_day WHERE job_id IN ({out})")
    file.run(f"INSERT OR REPLACE INTO duty_job (job_id, asks, contact) SELECT id, '', '' FROM ({out})")
    file.run("DELETE FROM duty_rules")
    file.run("INSERT INTO duty_rules (version) VALUES (?)", (rules_version(),))
