"""Sound jobs with one change, as the tables of the gate write it down."""

import tomllib
from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path
from typing import Any

from domain.editing.commands import COMMAND, Enter
from domain.job.job import SECTIONS, Job
from domain.place import Place
from tests.builders import complete_certificate, complete_minor_works, complete_report, done, signed

CASES = Path(__file__).parents[2] / "cases"
_SOUND: Mapping[str, Callable[..., Job]] = {
    "certificate": complete_certificate,
    "minor works": complete_minor_works,
    "report": complete_report,
}


def table(name: str) -> Mapping[str, Any]:
    """A table of `tests/cases`."""
    return tomllib.loads((CASES / f"{name}.toml").read_text(encoding="utf-8"))


@cache
def sound(papers: str) -> Job:
    """A job with nothing open but its signatures."""
    return _SOUND[papers](sign=False)


def place_of(written: str | Mapping[str, str]) -> Place:
    """`work.extent`, `b1`, `b1.zs`, `b1.c2` or `b1.c2.zs`; any other place names its parts."""
    if not isinstance(written, str):
        return Place.model_validate(written)
    first, *rest = written.split(".")
    if first in SECTIONS:
        return Place(section=first, box=".".join(rest))
    circuit = rest.pop(0) if rest and rest[0][0] == "c" and rest[0][1:].isdigit() else ""
    return Place(section="boards", board=first, circuit=circuit, box=".".join(rest))


def typed(job: Job, texts: Mapping[str, str]) -> Job:
    """The job with texts typed, box by box; an empty one empties its box."""
    return done(job, *(Enter(place=place_of(box), text=text) for box, text in texts.items()))


def written(job: Job, change: Mapping[str, Any]) -> Job:
    """The job as a document, with values written over and parts left out that no command would take so."""
    document = job.model_dump(mode="json")
    for path, value in change.get("document", {}).items():
        owner, last = _owner(document, path)
        owner[last] = value
    for path in change.get("without", ()):
        owner, last = _owner(document, path)
        del owner[last]
    return Job.model_validate(document)


def changed(job: Job, change: Mapping[str, Any]) -> Job:
    """The job after a change: what is `typed`, `do`ne, written in the `document`; signed, and changed once `signed`."""
    job = typed(job, change.get("typed", {}))
    job = done(job, *(COMMAND.validate_python(each) for each in change.get("do", ())))
    job = written(job, change)
    job = signed(job) if change.get("sign", True) else job
    return written(job, change.get("signed", {}))


def _owner(document: Any, path: str) -> tuple[Any, Any]:
    """Where a path such as `boards.b1.zs` ends: parts of a list go by their id, item or role."""
    *steps, last = path.split(".") if "/" not in path else path.split("/")
    for step in steps:
        document = document[_at(document, step)]
    return document, _at(document, last)


def _at(held: Any, step: str) -> Any:
    if not isinstance(held, list):
        return step
    return next(row for row, each in enumerate(held) if step in (each.get("id"), each.get("item"), each.get("role")))
