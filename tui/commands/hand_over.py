"""`hand-over`: a job of the log as JSON."""

import json
from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path

from domain.job.exchange import job_to_json
from domain.job.job import Job
from domain.log.job_log import Query
from domain.value import cleaned
from tui.commands.check import not_found
from tui.commands.command import (
    JSON,
    Command,
    CommandAnswer,
    CommandOption,
    Environment,
    StreamedAnswer,
    TypedArgument,
    UnusableError,
)
from tui.commands.output import as_json
from tui.commands.progress import Progress
from tui.services import Services

_ALL = CommandOption("--all", "every job of the log")
_FIND = CommandOption("--find", "every job that a search line finds", "WORDS")
_TO = CommandOption("--to", "write a new file instead", "FILE")


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer | StreamedAnswer:
    """The job, or the list of those found, on standard output or in a new file."""
    to = typed.value(_TO.name)
    several = typed.has(_ALL.name) or typed.has(_FIND.name)
    if several is bool(typed.words):
        raise UnusableError(f"Name one job by its number, or several by {_ALL.name} or {_FIND.name}")
    if to and Path(to).exists():
        raise UnusableError(_is_there(to))
    if several:
        return _several(cleaned(typed.value(_FIND.name)), to, environment)
    with environment.open_services() as services:
        job = services.log.load(cleaned(typed.words[0]))
        if job is None:
            return not_found(typed.words[0])
        handed = job_to_json(job)
        if to:
            _write(services, to, handed.encode())
            return CommandAnswer({"file": to}, to)
    value = json.loads(handed)
    return CommandAnswer(value, as_json(value))


def _several(words: str, to: str, environment: Environment) -> CommandAnswer | StreamedAnswer:
    if to:
        with environment.open_services() as services:
            counted = Counter[str]()
            _write(services, to, _as_list(_found(services, words), counted))
        return CommandAnswer({"file": to, "jobs": counted["jobs"]}, to)

    def values() -> Iterator[object]:
        with environment.open_services() as services:
            yield from (job.model_dump(mode="json") for job in _found(services, words))

    return StreamedAnswer(values)


def _found(services: Services, words: str) -> Iterator[Job]:
    """Every job that a search line finds, page after page; none but the one at hand is held."""
    progress, done = Progress("Handed over"), 0
    query = Query(words=words, limit=500, on=services.now().date())
    while lines := services.log.find(query):
        for line in lines:
            if job := services.log.load(line.number):
                yield job
            done += 1
            progress(done)
        query = query.model_copy(update={"before": lines[-1].number})
    progress.end()


def _as_list(jobs: Iterator[Job], counted: Counter[str]) -> Iterator[bytes]:
    """One JSON array of the jobs, one to a line, in pieces."""
    begun = False
    for job in jobs:
        counted["jobs"] += 1
        yield f"{',' if begun else '['}\n{job.model_dump_json()}".encode()
        begun = True
    yield b"\n]\n" if begun else b"[]\n"


def _write(services: Services, to: str, content: bytes | Iterable[bytes]) -> None:
    try:
        services.write_new(Path(to), content)
    except FileExistsError:
        raise UnusableError(_is_there(to)) from None


def _is_there(to: str) -> str:
    return f"{to} exists already and is not written over"


COMMAND = Command(
    name="hand-over",
    run=run,
    words="[NUMBER]",
    most=1,
    options=(JSON, _ALL, _FIND, _TO),
    explains="Words for --find are those of the search line. A whole log goes from place to place by backup and restore.",
)
