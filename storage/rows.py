"""The one seam where rows become values and values become rows."""

import hashlib
import json
import zlib
from datetime import UTC, date, datetime, timedelta
from functools import lru_cache
from typing import Any, NamedTuple

from pydantic import ValidationError

from domain.choice.answers import Answers
from domain.dated import Dated
from domain.form_set import FormSet
from domain.gate import Outcome
from domain.job import Job
from domain.job_log import JobLine, Jotting, State, TrailLine
from domain.place import Place
from domain.stepping import Edit
from storage.plain_errors import damaged

_START = datetime(1970, 1, 1, tzinfo=UTC)
LINE_COLUMNS = "number, client, premises, form_set, state, outcome, open_snags, updated, due, put_right"

NO_RECORD = bytes(32)
"""What the first link of the chain over issued papers follows."""


class Held(NamedTuple):
    """A job as the log holds it."""

    id: int
    version: int
    state: State
    replaces: int | None
    """Which job of this log it corrects."""
    put_right: bool
    job: Job


def microseconds(at: datetime) -> int:
    """A moment as rows keep it."""
    return (at.astimezone(UTC) - _START) // timedelta(microseconds=1)


def moment(kept: int) -> datetime:
    """The moment a row keeps."""
    return _START + timedelta(microseconds=kept)


def checksum(body: str) -> int:
    """What tells that a draft is read back as it was written."""
    return zlib.crc32(body.encode())


def leaf(body: bytes) -> bytes:
    """The hash of an issued record; its prefix sets it apart from the hashes that join records."""
    return hashlib.sha256(b"\x00" + body).digest()


def link(previous: bytes, record: bytes, pdf: bytes) -> bytes:
    """The next value of the chain over issued records and their papers."""
    return hashlib.sha256(b"\x01" + previous + record + pdf).digest()


DATED = f"""
SELECT {", ".join(f"job.{column.strip()}" for column in LINE_COLUMNS.split(","))},
    document ->> '$.chosen.answers', document ->> '$.work.completed_on', document ->> '$.report.inspected_on',
    document ->> '$.work.next_inspection', document ->> '$.report.next_inspection', document ->> '$.issued.at'
FROM job JOIN log_documents ON log_documents.number = job.number WHERE job.state != 'replaced'
"""
"""What the duties of each job hang on, taken out of its document where it lies."""


def dated_from(row: tuple[Any, ...]) -> tuple[JobLine, Dated]:
    """A line and what the duties of its job hang on."""
    *columns, answers, completed_on, inspected_on, work_next, report_next, issued_at = row
    line = line_from(tuple(columns))
    is_report = line.form_set.is_report
    return line, Dated(
        form_set=line.form_set,
        answers=_answers_from(answers or "{}"),
        done_on=(inspected_on if is_report else completed_on) or "",
        next_inspection=(report_next if is_report else work_next) or "",
        issued_on=(issued_at or "")[:10],
        outcome=line.outcome if issued_at else None,
    )


@lru_cache(maxsize=1024)
def _answers_from(text: str) -> Answers:
    return Answers.model_validate_json(text)


def line_values(line: JobLine) -> dict[str, Any]:
    """The columns of a log line."""
    return {
        "number": line.number,
        "client": line.client,
        "premises": line.premises,
        "form_set": line.form_set.value,
        "state": line.state.value,
        "outcome": line.outcome.value if line.outcome else None,
        "open_snags": line.open_snags,
        "updated": microseconds(line.updated),
        "due": line.due.toordinal() if line.due else None,
        "put_right": int(line.put_right),
    }


def line_from(row: tuple[Any, ...]) -> JobLine:
    """A log line from its columns."""
    number, client, premises, form_set, state, outcome, open_snags, updated, due, put_right = row
    return JobLine(
        number=number,
        client=client,
        premises=premises,
        form_set=FormSet(form_set),
        state=State(state),
        outcome=Outcome(outcome) if outcome else None,
        open_snags=open_snags,
        updated=moment(updated),
        due=date.fromordinal(due) if due else None,
        put_right=bool(put_right),
    )


def jotting_from(row: tuple[Any, ...]) -> Jotting:
    """Something kept of a person, from a row of its moment, the person and the text."""
    at, who, text = row
    return Jotting(at=moment(at), who=who, text=text)


def trail_line_from(row: tuple[Any, ...]) -> TrailLine:
    """A line of the trail from its columns."""
    version, at, who, what, command = row
    place = json.loads(command).get("place") if command else None
    return TrailLine(
        version=version, at=moment(at), who=who, what=what, place=Place.model_validate(place) if place else None
    )


def edit_from(row: tuple[Any, ...]) -> Edit:
    """An edit as stepping needs it."""
    version, what, changes, undoes, redoes = row
    return Edit(version, what, changes or "", undoes or 0, redoes or 0)


def _record_is_sound(body: bytes, sha: bytes) -> bool:
    return leaf(body) == sha


def _draft_is_sound(draft: str | None, crc: int | None) -> bool:
    return draft is not None and checksum(draft) == crc


def held_from(number: str, row: tuple[Any, ...]) -> Held:
    """A job from its draft or, once issued, from its record; raises where either was altered on disk."""
    job_id, version, state, replaces, put_right, draft, crc, body, sha = row
    if not (_record_is_sound(body, sha) if body is not None else _draft_is_sound(draft, crc)):
        raise damaged(f"The record of {number}")
    try:
        job = Job.model_validate_json(draft if body is None else body)
    except ValidationError as trouble:
        raise damaged(f"The record of {number}") from trouble
    return Held(job_id, version, State(state), replaces, bool(put_right), job)
