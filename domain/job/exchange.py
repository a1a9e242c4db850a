"""Jobs as JSON documents: written out, and read back with one plain sentence on what is wrong."""

import json
from collections.abc import Mapping
from typing import Any, NoReturn, cast

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from domain.job.board import Board
from domain.job.box import boxes_of
from domain.job.circuit import Circuit
from domain.job.job import SECTION_TITLES, SECTIONS, Job
from domain.job.schema_version import SCHEMA_VERSION
from domain.value import cleaned
from domain.words import capitalised, uncapitalised

DOCUMENT_MAX = 4_000_000
"""Bytes; a job with every box filled stays far below."""
DOCUMENTS_MAX = 64_000_000
"""Bytes of a list of jobs; a whole log goes from place to place as a copy of it."""
_PARTS_MAX = 20_000
"""Fields or entries of one part of a document; none has as many."""
_SHOWN_MAX = 40


class ExchangeError(ValueError):
    """The document cannot be used; the message is one plain sentence for the person."""


def job_to_json(job: Job) -> str:
    """The job as a document, indented for people to read."""
    return json.dumps(job.model_dump(mode="json"), ensure_ascii=False, indent=2) + "\n"


def job_from_json(document: bytes | str) -> Job:
    """The job in a document; ExchangeError where it holds none."""
    return _job_in(_parsed(_text_of(document, DOCUMENT_MAX)))


def jobs_from_json(document: bytes | str) -> tuple[Job, ...] | Job:
    """The job in a document, or each of those in its list; ExchangeError where one cannot be used."""
    held = _parsed(_text_of(document, DOCUMENTS_MAX))
    if not isinstance(held, list):
        return _job_in(held)
    return tuple(_job_of_many(each, at) for at, each in enumerate(cast(list[object], held), 1))


def _job_of_many(held: object, at: int) -> Job:
    try:
        return _job_in(held)
    except ExchangeError as error:
        says = str(error)
        raise ExchangeError(f"Job {at}: {uncapitalised(says)}") from None


def _job_in(held: object) -> Job:
    if not isinstance(held, dict):
        raise ExchangeError("It holds no job: a job is a JSON object")
    fields = cast(dict[str, Any], held)
    version = fields.get("schema_version", SCHEMA_VERSION)
    if version != SCHEMA_VERSION or isinstance(version, (bool, float)):
        raise ExchangeError(f"It has schema version {_shown(version)}; this program reads version {SCHEMA_VERSION}")
    try:
        return Job.model_validate(fields)
    except ValidationError as error:
        raise ExchangeError(_complaint(error.errors(include_url=False)[0])) from None
    except RecursionError:
        raise ExchangeError("It is nested too deeply for a job") from None


def _text_of(document: bytes | str, most: int) -> str:
    if len(document) > most:
        what = "any job" if most == DOCUMENT_MAX else "what is read at once; part it"
        raise ExchangeError(f"It is larger than {what} ({most // 1_000_000} MB at most)")
    if isinstance(document, str):
        return document
    try:
        return document.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise ExchangeError("It is not text in UTF-8") from None


def _parsed(text: str) -> object:
    try:
        return json.loads(text, object_pairs_hook=_once_each, parse_constant=_no_constant)
    except ExchangeError:
        raise
    except json.JSONDecodeError as error:
        raise ExchangeError(f"It is not JSON: line {error.lineno}, column {error.colno} cannot be read") from None
    except RecursionError:
        raise ExchangeError("It is nested too deeply for a job") from None
    except ValueError:
        raise ExchangeError("It holds a number with more digits than can be read") from None


def _once_each(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    if len(pairs) > _PARTS_MAX:
        raise ExchangeError(f"It gives more than {_PARTS_MAX:,} fields in one place, which no part of a job has")
    held: dict[str, Any] = {}
    for name, value in pairs:
        if name in held:
            raise ExchangeError(f"It gives {_shown(name)} twice in the same place")
        if isinstance(value, list) and len(cast(list[object], value)) > _PARTS_MAX:
            raise ExchangeError(f"It gives {_shown(name)} more than {_PARTS_MAX:,} entries, which no part of a job has")
        held[name] = value
    return held


def _no_constant(name: str) -> NoReturn:
    raise ExchangeError(f"It holds {name}, which is no JSON value")


_LISTS = {
    "boards": "board",
    "circuits": "circuit",
    "inspection": "inspection outcome",
    "observations": "observation",
    "snags": "snag",
    "signatures": "signature",
}
_WRONG_TYPES = {
    "string_type": "must be text, in quotes",
    "tuple_type": "must be a list",
    "list_type": "must be a list",
    "model_type": "must be an object with fields",
    "dict_type": "must be an object with fields",
    "bool_type": "must be true or false",
    "int_type": "must be a whole number",
    "int_parsing": "must be a whole number",
    "int_from_float": "must be a whole number",
}


def _complaint(error: ErrorDetails) -> str:
    *path, last = error["loc"] or ("",)
    kind, context = error["type"], error.get("ctx", {})
    if kind == "extra_forbidden":
        return f"There is no field {_shown(last)} in {_described(path) or 'a job'}"
    where = _described([*path, last]) if error["loc"] else "The document"
    if kind == "missing":
        return f"{where} is missing"
    return f"{where} {_says(kind, context, error)}"


def _says(kind: str, context: Mapping[str, Any], error: ErrorDetails) -> str:
    if kind in _WRONG_TYPES:
        return _WRONG_TYPES[kind]
    if kind == "string_too_long":
        return f"holds more than {context['max_length']} characters"
    if kind == "too_long":
        return f"holds more than {context['max_length']} entries"
    if kind in {"enum", "literal_error"}:
        return f"is {_shown(error['input'])}; it can be {context['expected']}"
    if kind == "value_error":
        return f"cannot be used: {_shown_as_it_is(str(context['error']))}"
    if kind.startswith(("date", "time")):
        return f"is {_shown(error['input'])}, which is no date and time as 2026-11-25T16:30:00+00:00"
    return f"is {_shown(error['input'])}, which cannot be used"


def _described(path: list[int | str]) -> str:
    """A path as a person would say it: `Board 1, circuit 3, Measured Zs`."""
    parts: list[str] = []
    owner: type[BaseModel] = Job
    for step, following in zip(path, [*path[1:], ""], strict=False):
        if isinstance(step, int):
            continue
        if isinstance(following, int):
            parts.append(f"{_LISTS.get(step, step)} {following + 1}")
            owner = {"boards": Board, "circuits": Circuit}.get(step, owner)
        elif step in SECTIONS and owner is Job:
            parts.append(SECTION_TITLES[step])
            owner = SECTIONS[step]
        else:
            box = boxes_of(owner).get(step)
            parts.append(box.label if box else _LISTS_WHOLE.get(step) or _shown(step))
    said = ", ".join(parts)
    return capitalised(said)


_LISTS_WHOLE = {"boards": "the list of boards", "circuits": "the list of circuits", "snags": "the list of snags"}


def _shown(value: object) -> str:
    """Somebody's own text, short and with control characters made visible."""
    if isinstance(value, str):
        shown = value if len(value) <= _SHOWN_MAX else f"{value[:_SHOWN_MAX]}…"
        return f"'{_shown_as_it_is(shown)}'"
    if isinstance(value, (dict, list)):
        return "a list" if isinstance(value, list) else "an object"
    return _shown_as_it_is(str(value)[:_SHOWN_MAX])


def _shown_as_it_is(text: str) -> str:
    return "".join(letter if cleaned(letter) == letter else letter.encode("unicode_escape").decode() for letter in text)
