"""`hand-over`: a job of the log as JSON."""

import json
from pathlib import Path

from domain.exchange import job_to_json
from domain.value import cleaned
from tui.commands.check import not_found
from tui.commands.command import JSON, Answer, Command, Option, Typed, UnusableError, Wiring
from tui.commands.plain import as_json


def run(typed: Typed, wiring: Wiring) -> Answer:
    """The job on standard output, or in a new file."""
    number, to = typed.words[0], typed.value("--to")
    with wiring.at_desk() as desk:
        job = desk.log.load(cleaned(number))
        if job is None:
            return not_found(number)
        handed = job_to_json(job)
        if to:
            try:
                desk.write_new(Path(to), handed.encode())
            except FileExistsError:
                raise UnusableError(f"{to} exists already and is not written over") from None
            return Answer({"file": to}, to)
    value = json.loads(handed)
    return Answer(value, as_json(value))


COMMAND = Command(
    name="hand-over",
    summary="a job of the log as JSON, for another log to bring in",
    run=run,
    words="NUMBER",
    least=1,
    most=1,
    options=(JSON, Option("--to", "write a new file instead", "FILE")),
)
