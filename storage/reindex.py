"""Every line of the log and its search words computed again from the jobs, as a newer layout asks for."""

from contextlib import suppress

from domain.log.job_log import JobLogError, State
from domain.log.log_line import line_of
from storage.jobs import put_words, require
from storage.layout import LINES
from storage.line_rows import line_values, moment
from storage.log_file import LogFile
from storage.search_text import text_values
from storage.vocabulary import learn


def finish_migrating(file: LogFile) -> None:
    """Do what a migration left to do; nothing where it left nothing."""
    if file.first("SELECT 1 FROM pending_task WHERE name = ?", (LINES,)):
        with file.writing():
            write_lines_anew(file)
            file.run("DELETE FROM pending_task WHERE name = ?", (LINES,))


def write_lines_anew(file: LogFile) -> None:
    """Write the line and the search words of every job anew. Call it inside a write."""
    # A damaged index would not take the words of a job out again.
    file.run("INSERT INTO job_fts (job_fts) VALUES ('rebuild')")
    file.run("DELETE FROM near")
    file.run("DELETE FROM term")
    for number, updated in file.run("SELECT number, updated FROM job ORDER BY id"):
        # A damaged job keeps the line it has; `tend` names it.
        with suppress(JobLogError):
            _write_line(file, number, updated)
    file.run("INSERT INTO job_fts (job_fts) VALUES ('rebuild')")


def _write_line(file: LogFile, number: str, updated: int) -> None:
    stored = require(file, number)
    replaced = stored.state is State.REPLACED
    line = line_of(stored.job, updated=moment(updated), replaced=replaced, put_right=stored.put_right)
    ((job_id,),) = file.run(
        "UPDATE job SET client = :client, premises = :premises, form_set = :form_set, state = :state,"
        " outcome = :outcome, open_snags = :open_snags, due = :due, day = :day WHERE number = :number RETURNING id",
        line_values(line),
    )
    words = text_values(stored.job, line)
    put_words(file, job_id, words)
    learn(file, words)
