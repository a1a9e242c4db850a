"""The seam where rows become jobs and edits. Lines of the log, which are shown without a job, are read in `line_rows`."""

import zlib
from functools import lru_cache
from typing import Any

from pydantic import ValidationError

from domain.duties.duty_facts import DutyFacts
from domain.editing.undo import Edit
from domain.edition import Edition
from domain.forms.choice.answers import Answers
from domain.gate.outcome import Outcome
from domain.job.board import Board
from domain.job.job import Job
from domain.log.chain import leaf
from domain.log.job_log import JobLine, State
from domain.log.store import StoredJob
from storage.errors import damaged
from storage.line_rows import LINE_COLUMNS, line_from
from storage.trail_block import EditRow


def checksum(body: str) -> int:
    """What tells that a draft is read back as it was written."""
    return zlib.crc32(body.encode())


DATED = f"""
SELECT job.id, {", ".join(f"job.{column.strip()}" for column in LINE_COLUMNS.split(","))},
    document ->> '$.chosen.answers', document ->> '$.work.completed_on', document ->> '$.report.inspected_on',
    document ->> '$.work.next_inspection', document ->> '$.report.next_inspection', document ->> '$.issued.at',
    document ->> '$.client.contact', document ->> '$.edition', document ->> '$.chosen.seen',
    document ->> '$.report.remedy_within',
    (SELECT count(*) > 0 AND sum(found.value ->> 'code' != 'C3') = 0 FROM json_each(document, '$.observations') AS found)
FROM job JOIN log_documents ON log_documents.number = job.number WHERE job.state != 'replaced'
    AND job.laid_aside = 0
"""
"""What the duties of each job hang on, taken out of its document where it lies; the row's id goes before."""


def dated_from(row: tuple[Any, ...]) -> tuple[JobLine, DutyFacts]:
    """A line and what the duties of its job hang on."""
    (
        *columns,
        answers,
        completed_on,
        inspected_on,
        work_next,
        report_next,
        issued_at,
        contact,
        edition,
        seen,
        remedy_within,
        improves,
    ) = row
    line = line_from(tuple(columns))
    profile = line.form_set.profile
    return line, DutyFacts(
        form_set=line.form_set,
        answers=_answers_from(answers or "{}"),
        done_on={"completed_on": completed_on, "inspected_on": inspected_on}.get(profile.day_box) or "",
        next_inspection={"work": work_next, "report": report_next}.get(profile.section) or "",
        issued_on=(issued_at or "")[:10],
        outcome=line.outcome if issued_at or seen else Outcome.SATISFACTORY if improves else None,
        remedy_within=remedy_within or "",
        contact=contact or "",
        edition=Edition(edition) if edition else None,
    )


@lru_cache(maxsize=1024)
def _answers_from(text: str) -> Answers:
    return Answers.model_validate_json(text)


def edit_from(row: EditRow) -> Edit:
    """An edit as stepping needs it."""
    return Edit(row.version, row.what, row.changes or "", row.undoes or 0, row.redoes or 0)


def _record_is_sound(body: bytes, sha: bytes) -> bool:
    return leaf(body) == sha


def _draft_is_sound(draft: str | None, crc: int | None) -> bool:
    return draft is not None and checksum(draft) == crc


_last: tuple[str, Job] | None = None
"""The draft that was read or written last, and its job: whoever edits it again need not have all of it made anew."""


_NO_BOARDS = '"boards":[]'
_written: dict[int, tuple[Board, str]] = {}
"""The boards of the job written last, by their identity, each as it was written: an edit makes few of them anew."""


def draft_of(job: Job) -> str:
    """The draft a job is kept as."""
    global _last
    body = _text_of(job)
    _last = (body, job)
    return body


def _text_of(job: Job) -> str:
    """What `model_dump_json` gives, which in a job of hundreds of circuits takes longer than all else of an edit."""
    if len(job.boards) < 2:
        return job.model_dump_json()
    around = job.model_copy(update={"boards": ()}).model_dump_json()
    if around.count(_NO_BOARDS) != 1:
        return job.model_dump_json()
    now: dict[int, tuple[Board, str]] = {}
    for board in job.boards:
        held = _written.get(id(board))
        now[id(board)] = held if held and held[0] is board else (board, board.model_dump_json())
    _written.clear()
    _written.update(now)
    return around.replace(_NO_BOARDS, f'"boards":[{",".join(text for _, text in now.values())}]')


def _job_in_draft(body: str) -> Job:
    """The job in a draft: the very one that was written as it, where that is the last."""
    global _last
    held = _last
    if held is None or held[0] != body:
        held = _last = (body, Job.model_validate_json(body))
    return held[1]


def stored_from(number: str, row: tuple[Any, ...]) -> StoredJob:
    """A job from its draft or, once issued, from its record; raises where either was altered on disk."""
    version, state, replaces, correction, put_right, draft, crc, body, sha = row
    if not (_record_is_sound(body, sha) if body is not None else _draft_is_sound(draft, crc)):
        raise damaged(f"The record of {number}")
    try:
        job = _job_in_draft(draft or "") if body is None else Job.model_validate_json(body)
    except ValidationError as trouble:
        raise damaged(f"The record of {number}") from trouble
    return StoredJob(job, version, State(state), replaces or "", correction or "", bool(put_right))
