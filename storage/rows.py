"""The one seam where rows become values and values become rows."""

import hashlib
import zlib
from datetime import UTC, datetime, timedelta
from typing import Any, NamedTuple

from pydantic import ValidationError

from domain.form_set import FormSet
from domain.gate import Outcome
from domain.job import Job
from domain.job_log import JobLine, State, TrailLine
from storage.plain_errors import damaged

_START = datetime(1970, 1, 1, tzinfo=UTC)
LINE_COLUMNS = "number, client, premises, form_set, state, outcome, open_snags, updated"


class Held(NamedTuple):
    """A job as the log holds it."""

    id: int
    version: int
    state: State
    replaces: int | None
    """Which job of this log it corrects."""
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
    }


def line_from(row: tuple[Any, ...]) -> JobLine:
    """A log line from its columns."""
    number, client, premises, form_set, state, outcome, open_snags, updated = row
    return JobLine(
        number=number,
        client=client,
        premises=premises,
        form_set=FormSet(form_set),
        state=State(state),
        outcome=Outcome(outcome) if outcome else None,
        open_snags=open_snags,
        updated=moment(updated),
    )


def trail_line_from(row: tuple[Any, ...]) -> TrailLine:
    """A line of the trail from its columns."""
    at, who, what = row
    return TrailLine(at=moment(at), who=who, what=what)


def _record_is_sound(body: bytes, sha: bytes) -> bool:
    return leaf(body) == sha


def _draft_is_sound(draft: str | None, crc: int | None) -> bool:
    return draft is not None and checksum(draft) == crc


def held_from(number: str, row: tuple[Any, ...]) -> Held:
    """A job from its draft or, once issued, from its record; raises where either was altered on disk."""
    job_id, version, state, replaces, draft, crc, body, sha = row
    if not (_record_is_sound(body, sha) if body is not None else _draft_is_sound(draft, crc)):
        raise damaged(f"The record of {number}")
    try:
        job = Job.model_validate_json(draft if body is None else body)
    except ValidationError as trouble:
        raise damaged(f"The record of {number}") from trouble
    return Held(id=job_id, version=version, state=State(state), replaces=replaces, job=job)
