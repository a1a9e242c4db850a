"""`hand-over`: a job of the log as JSON."""

import json
from pathlib import Path

from domain.job.exchange import job_to_json
from domain.job.job import Job
from domain.log.job_log import Query
from domain.value import cleaned
from tui.commands.check import not_found
from tui.commands.command import JSON, Command, CommandAnswer, CommandOption, Environment, TypedArgument, UnusableError
from tui.commands.output import as_json
from tui.services import Services

_ALL = CommandOption("--all", "every job of the log")
_FIND = CommandOption("--find", "every job that a search line finds", "WORDS")
_TO = CommandOption("--to", "write a new file instead", "FILE")


def run(typed: TypedArgument, wiring: Environment) -> CommandAnswer:
    """The job, or the list of those found, on standard output or in a new file."""
    to = typed.value(_TO.name)
    several = typed.has(_ALL.name) or typed.has(_FIND.name)
    if several is bool(typed.words):
        raise UnusableError(f"Name one job by its number, or several by {_ALL.name} or {_FIND.name}")
    with wiring.at_desk() as desk:
        if several:
            found = _found(desk, cleaned(typed.value(_FIND.name)))
            handed = "[" + ",".join(job_to_json(job) for job in found) + "]\n"
        else:
            job = desk.log.load(cleaned(typed.words[0]))
            if job is None:
                return not_found(typed.words[0])
            found, handed = [job], job_to_json(job)
        if to:
            try:
                desk.write_new(Path(to), handed.encode())
            except FileExistsError:
                raise UnusableError(f"{to} exists already and is not written over") from None
            return CommandAnswer({"file": to, "jobs": len(found)} if several else {"file": to}, to)
    value = json.loads(handed)
    return CommandAnswer(value, as_json(value))


def _found(desk: Services, words: str) -> list[Job]:
    """Every job that a search line finds, page after page."""
    jobs: list[Job] = []
    query = Query(words=words, limit=500, on=desk.now().date())
    while lines := desk.log.find(query):
        jobs += [job for line in lines if (job := desk.log.load(line.number))]
        query = query.model_copy(update={"before": lines[-1].number})
    return jobs


COMMAND = Command(
    name="hand-over",
    run=run,
    words="[NUMBER]",
    most=1,
    options=(JSON, _ALL, _FIND, _TO),
    explains="Words for --find are those of the search line. A whole log goes from place to place by backup and restore.",
)
