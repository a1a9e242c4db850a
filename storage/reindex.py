"""Every line of the log and its search words computed again from the jobs, as a newer layout asks for."""

from contextlib import suppress

from domain.log.job_log import JobLogError, State
from domain.log.log_line import line_of
from storage.drafts import must_hold
from storage.line_rows import line_values, moment
from storage.log_file import LogFile
from storage.registers import learn_entries
from storage.search_text import text_values
from storage.vocabulary import learn


def finish_migrating(file: LogFile) -> None:
    """Do what a migration left to do; nothing where it left nothing."""
    if file.first("SELECT 1 FROM chore WHERE name = 'lines'"):
        with file.writing():
            write_lines_anew(file)
            file.run("DELETE FROM chore WHERE name = 'lines'")
    if file.first("SELECT 1 FROM chore WHERE name = 'registers'"):
        with file.writing():
            _learn_from_all_issued(file)
            file.run("DELETE FROM chore WHERE name = 'registers'")
    if file.first("SELECT 1 FROM chore WHERE name = 'people'"):
        with file.writing():
            _find_people_by_words(file)
            file.run("DELETE FROM chore WHERE name = 'people'")


def _find_people_by_words(file: LogFile) -> None:
    """Put the engineers' names, which were filters only, among the words of every job; no job is read."""
    for job_id, other, facets in file.run("SELECT id, other, facets FROM job_text"):
        held = other.split()
        names = [facet[2:] for facet in facets.split() if facet.startswith("ze")]
        if new := [name for name in names if name not in held]:
            words = " ".join((*held, *new))
            file.run("UPDATE job_text SET other = ? WHERE id = ?", (words, job_id))
            learn(file, {"client": "", "place": "", "other": " ".join(new), "facets": ""})


def _learn_from_all_issued(file: LogFile) -> None:
    for number, by, at in file.run("SELECT number, issued_by, issued_at FROM issued ORDER BY seq"):
        with suppress(JobLogError):
            learn_entries(file, must_hold(file, number).job, who=by, at=moment(at))


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
    held = must_hold(file, number)
    line = line_of(held.job, updated=moment(updated), replaced=held.state is State.REPLACED, put_right=held.put_right)
    words = text_values(held.job, line)
    file.run(
        "UPDATE job SET client = :client, premises = :premises, form_set = :form_set, state = :state,"
        " outcome = :outcome, open_snags = :open_snags, due = :due WHERE id = :id",
        line_values(line) | {"id": held.id},
    )
    file.run(
        "INSERT INTO job_text (id, client, place, other, facets) VALUES (:id, :client, :place, :other, :facets)"
        " ON CONFLICT (id) DO UPDATE SET client = :client, place = :place, other = :other, facets = :facets",
        words | {"id": held.id},
    )
    learn(file, words)
