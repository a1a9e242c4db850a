"""Jobs, answers and tables of readings that anybody may have written, read in a process of its own.

It takes only so much of memory, time and room; what it answers is in this program's own words, and is read again here.
"""

import json
from typing import Any

from domain.editing.reading_table import TABLE_MAX, Columns, ReadingRow, ReadingTableError, rows_in
from domain.forms.choice.answers import Answers
from domain.forms.choice.answers_document import AnswersError, WrongAnswer, answers_from_json
from domain.job.exchange import DOCUMENTS_MAX, ExchangeError, job_from_json, jobs_from_json
from domain.job.job import Job
from storage.child_process import ProcessLimits
from storage.read_apart import made_apart, refused

_ONE_JOB = ProcessLimits(memory=1024, seconds=20, written=16)
_MANY_JOBS = ProcessLimits(memory=2048, seconds=60, written=160)
_ONE_TABLE = ProcessLimits(memory=1024, seconds=20, written=64)
_TOO_MUCH = "It takes more memory, time or room to read than any {} does, so nothing of it was taken"
_ANY_SIZE = DOCUMENTS_MAX + TABLE_MAX
"""How large each may be, its reader says in its own words."""


def job_given(document: bytes) -> Job:
    """The job in a document; ExchangeError where it holds none."""
    (job,) = _asked_for("read_job", document, _ONE_JOB)["jobs"]
    return Job.model_validate(job)


def jobs_given(document: bytes) -> tuple[Job, ...] | Job:
    """The job in a document, or each of those in its list; ExchangeError where one cannot be used."""
    answer = _asked_for("read_jobs", document, _MANY_JOBS)
    jobs = tuple(map(Job.model_validate, answer["jobs"]))
    return jobs if answer["is_list"] else jobs[0]


def answers_given(document: bytes) -> Answers:
    """The answers in a document; AnswersError where it holds none that can be used."""
    unreadable = _TOO_MUCH.format("set of answers")
    answer = made_apart(f"{__name__}:read_answers", document, _ANY_SIZE, _UnreadableError, unreadable, _ONE_JOB)
    if "wrong" in answer:
        kind, where, says, given = answer["wrong"]
        raise AnswersError(WrongAnswer(kind, tuple(where), says, given))
    return Answers.model_validate(answer["answers"])


class _UnreadableError(AnswersError):
    def __init__(self, says: str) -> None:
        super().__init__(WrongAnswer("", (), says, ""))


def rows_given(document: bytes, columns: Columns) -> tuple[ReadingRow, ...]:
    """The rows of a table; ReadingTableError where it has none under these headings."""
    request = columns.model_dump_json().encode() + b"\n" + document
    unreadable = _TOO_MUCH.format("table of readings")
    answer = made_apart(f"{__name__}:read_rows", request, _ANY_SIZE, ReadingTableError, unreadable, _ONE_TABLE)
    return tuple(ReadingRow(line, cells) for line, cells in answer["rows"])


def _asked_for(function: str, document: bytes, limits: ProcessLimits) -> dict[str, Any]:
    unreadable = _TOO_MUCH.format("job or list of jobs")
    return made_apart(f"{__name__}:{function}", document, _ANY_SIZE, ExchangeError, unreadable, limits)


def _told(jobs: tuple[Job, ...], *, is_list: bool) -> bytes:
    held = b",".join(job.model_dump_json().encode() for job in jobs)
    return b'{"is_list":%b,"jobs":[%b]}' % (b"true" if is_list else b"false", held)


def read_job(document: bytes) -> bytes:
    """The job of a document, or why it is none, as JSON; called in the process of its own, as are those below."""
    try:
        return _told((job_from_json(document),), is_list=False)
    except ExchangeError as error:
        return refused(error)


def read_jobs(document: bytes) -> bytes:
    """The jobs of a document, or why one cannot be used, as JSON."""
    try:
        held = jobs_from_json(document)
    except ExchangeError as error:
        return refused(error)
    return _told(held, is_list=True) if isinstance(held, tuple) else _told((held,), is_list=False)


def read_answers(document: bytes) -> bytes:
    """The answers of a document, or what is wrong with them, as JSON."""
    try:
        return b'{"answers":%b}' % answers_from_json(document).model_dump_json().encode()
    except AnswersError as error:
        return json.dumps({"wrong": error.wrong}).encode()


def read_rows(request: bytes) -> bytes:
    """The rows of a table, each with its line and its cells, or why there are none, as JSON."""
    columns, _, document = request.partition(b"\n")
    try:
        return json.dumps({"rows": rows_in(document, Columns.model_validate_json(columns))}).encode()
    except ReadingTableError as error:
        return refused(error)
