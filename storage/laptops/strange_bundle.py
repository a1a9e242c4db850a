"""A bundle that anybody may have made, examined by a process of its own: what it writes down from it is what is taken in."""

import base64
import hashlib
import json
from collections.abc import Callable, Mapping
from datetime import datetime
from pathlib import Path
from typing import Annotated, Any

from pydantic import Field, StringConstraints, TypeAdapter

from domain.editing.commands import COMMAND
from domain.job.job import Job
from domain.job.job_number import is_job_number
from domain.laptops.operation import Act
from domain.log.job_log import JobLogError
from domain.log_note import LogNote
from domain.register.entries import ENTRY
from domain.value import Line, Prose, Value
from storage.child_process import BeyondLimitsError, ProcessLimits, asked
from storage.laptops.bundle_file import BundleHead, body_of, head_of

_MEGABYTE = 1024 * 1024
_STRETCH, _LEAST = 60, 64
"""So many times as large as compressed may a bundle be, and so many megabytes in any case."""
_SECONDS, _SECONDS_A_MEGABYTE = 60, 20
_COUNT_MAX = 1_000_000_000

Device = Annotated[str, StringConstraints(pattern=r"^[0-9a-z-]{1,40}$")]
Digest = Annotated[str, StringConstraints(pattern=r"^([0-9a-f]{64})?$")]
Letters = Annotated[str, StringConstraints(pattern=r"^[A-Z]{1,4}$")]
Count = Annotated[int, Field(ge=0, le=_COUNT_MAX)]
Ends = dict[Device, tuple[Count, Digest]]
_HEAD = TypeAdapter(tuple[Ends, Ends, Annotated[list[str], Field(max_length=100_000)]])
_HOLDING = TypeAdapter(tuple[str, Count, Digest, str, str, str, bool])
_OPERATION = TypeAdapter(
    tuple[Device, Count, Digest, Act, str, Count, Digest, Annotated[str, Field(max_length=40)], str]
)


class _ToldOfJob(Value):
    """What is told of a job."""

    who: Line
    what: Prose
    op: Line = ""
    job: dict[str, Any] | None = None
    replaces: str = ""
    pdf_sha: Digest = ""
    pages: Count = 0
    changes: str = ""
    undoes: Count = 0
    redoes: Count = 0
    hash: str = ""
    command: dict[str, Any] | None = None
    replaced: bool = False
    put_right: bool = False


class _ToldBeside(Value):
    """A note, or a version of an entry."""

    who: Line
    topic: Line = ""
    text: str = ""
    entry: dict[str, Any] | None = None
    was: dict[str, Any] | None = None
    retired: bool = False


class _About(Value):
    """What the protocol says of devices, jobs and matters."""

    device: Device = ""
    name: Letters = "A"
    person: Line = ""
    days: Count = 0
    counter: Count = 0
    first: Count = 0
    last: Count = 0
    to: Mapping[Device, Count] = Field(default_factory=dict[str, int])
    was: Device = ""
    also: Annotated[str, Field(alias="as")] = ""
    matter: tuple[Line, str, str, str] | None = None
    choice: Count = 0


def examined(bundle: Path, part: Path) -> BundleHead:
    """Have a bundle written out, line by line and every line sound, into a file of ours; JobLogError where it is none."""
    size = bundle.stat().st_size // _MEGABYTE
    limits = ProcessLimits(memory=1024, seconds=_SECONDS + _SECONDS_A_MEGABYTE * size, written=_LEAST + _STRETCH * size)
    try:
        answer = json.loads(asked(f"{__name__}:examine", json.dumps([str(bundle), str(part)]).encode(), limits))
    except BeyondLimitsError:
        raise JobLogError(
            f"{bundle.name} takes more memory, time or room than a bundle of its size does. Nothing was taken in."
        ) from None
    if fault := answer.get("fault"):
        raise JobLogError(fault)
    return BundleHead(*answer["head"])


def examine(request: bytes) -> bytes:
    """Write a bundle out into a file; its head or the fault, in JSON."""
    bundle, part = map(Path, json.loads(request))
    try:
        with bundle.open("rb") as file, part.open("wb") as out:
            head = head_of(file, bundle.name)
            _write_out(head, file, out.write)
    except JobLogError as error:
        return json.dumps({"fault": str(error)}).encode()
    except (ValueError, TypeError, RecursionError):
        fault = f"{bundle.name} was cut off or spoilt on its way. Nothing was taken in; have it sent again."
        return json.dumps({"fault": fault}).encode()
    return json.dumps({"head": head}).encode()


def _write_out(head: BundleHead, file: Any, write: Callable[[bytes], object]) -> None:
    digest, count, ended = hashlib.sha256(), 0, False
    for number, line in enumerate(body_of(file, digest.update)):
        kind, *values = json.loads(line)
        if ended or (kind == "bundle") != (number == 0):
            raise ValueError
        if kind == "end":
            ended = values == [count]
        elif kind == "operation":
            count += 1
        _check(kind, values)
        write(line + b"\n")
    if not ended or digest.hexdigest() != head.sha256:
        raise ValueError


def _check(kind: str, values: list[Any]) -> None:
    if kind == "bundle":
        _HEAD.validate_python(values)
    elif kind == "paper":
        number, pdf = values
        if not is_job_number(number) or not base64.b64decode(pdf, validate=True).startswith(b"%PDF-"):
            raise ValueError
    elif kind == "holding":
        job, holding, document = values
        _HOLDING.validate_python(holding)
        if not is_job_number(job) or (document and Job.model_validate_json(document).number != job):
            raise ValueError
    elif kind == "operation":
        _check_operation(values)
    elif kind != "end":
        raise ValueError


def _check_operation(values: list[Any]) -> None:
    _, counter, _, act, job, _, _, at, body = _OPERATION.validate_python(values)
    if not counter or (job and not is_job_number(job)):
        raise ValueError
    moment = datetime.fromisoformat(at)
    told: dict[str, Any] = json.loads(body) if body else {}
    if act in (Act.BEGIN, Act.EDIT, Act.ISSUE):
        done = _ToldOfJob.model_validate(told)
        if (done.job is None) != (act is Act.EDIT) or (done.job and Job.model_validate(done.job).number != job):
            raise ValueError
        if done.command is not None:
            COMMAND.validate_python(done.command)
    elif act in (Act.NOTE, Act.RULE):
        kept = _ToldBeside.model_validate(told)
        for entry in filter(None, (kept.entry, kept.was)):
            ENTRY.validate_python(entry)
        LogNote(at=moment, who=kept.who, text=kept.text)
    else:
        _About.model_validate(told)
