"""Every line of the log and its search words computed again from the jobs, as a newer layout asks for."""

from collections.abc import Collection
from contextlib import suppress

from domain.job.job import Job
from domain.log.job_log import JobLine, JobLogError
from domain.log.log_line import line_of
from domain.log.replay import PUT_RIGHT
from storage.jobs import put_words, require
from storage.layout import LINES
from storage.line_rows import line_values, moment
from storage.log_file import LogFile
from storage.registers import SqliteRegisters
from storage.search_text import text_values
from storage.vocabulary import learn


def finish_migrating(file: LogFile) -> None:
    """Do what a migration left to do; nothing where it left nothing."""
    if file.first("SELECT 1 FROM pending_task WHERE name = ?", (LINES,)):
        with file.writing():
            write_lines_anew(file)
            file.run("DELETE FROM pending_task WHERE name = ?", (LINES,))


def write_lines_anew(file: LogFile, besides: Collection[str] = ()) -> None:
    """Write the line and the search words of every job anew, but for some. Call it inside a write."""
    # A damaged index would not take the words of a job out again.
    file.run("INSERT INTO job_fts (job_fts) VALUES ('rebuild')")
    file.run("DELETE FROM near")
    file.run("DELETE FROM term")
    for (number,) in file.run("SELECT number FROM job ORDER BY id"):
        # A damaged job keeps the line it has; `tend` names it.
        with suppress(JobLogError):
            if number not in besides:
                _write_line(file, number)
    file.run("INSERT INTO job_fts (job_fts) VALUES ('rebuild')")


def expected_line(file: LogFile, number: str, job: Job) -> JobLine:
    """The line that follows from a job, its trail and what replaced it."""
    ((updated, put_right),) = file.run(
        "SELECT coalesce((SELECT at FROM edit WHERE job_id = job.id ORDER BY version DESC LIMIT 1), updated), EXISTS ("
        "SELECT 1 FROM edit WHERE job_id = job.id AND command IS NULL AND changes IS NULL AND what LIKE ? || '%')"
        " FROM job WHERE number = ?",
        (PUT_RIGHT, number),
    )
    people = () if job.issued else SqliteRegisters(file).named(job.signers)
    replaced = bool(replaced_by(file, number))
    return line_of(job, updated=moment(updated), replaced=replaced, put_right=bool(put_right), people=people)


def replaced_by(file: LogFile, number: str) -> str:
    """The issued job that stands in the place of another; "" where there is none."""
    row = file.first("SELECT number FROM issued WHERE replaces = ?", (number,))
    return row[0] if row else ""


def _write_line(file: LogFile, number: str) -> None:
    job = require(file, number).job
    line = expected_line(file, number, job)
    ((job_id,),) = file.run(
        "UPDATE job SET client = :client, premises = :premises, form_set = :form_set, state = :state,"
        " outcome = :outcome, open_snags = :open_snags, updated = :updated, due = :due, day = :day, put_right = :put_right,"
        " laid_aside = :laid_aside"
        " WHERE number = :number RETURNING id",
        line_values(line),
    )
    words = text_values(job, line)
    put_words(file, job_id, words)
    learn(file, words)
