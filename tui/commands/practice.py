"""`practice`: cases to practise on, and the summary of somebody's practice as text, JSON or PDF."""

from pathlib import Path

from domain.coach.case import cases
from domain.coach.cautions import cautions
from domain.coach.kept import answers_of, named, practisers
from domain.coach.summary import Summary, summary_of
from domain.coach.summary_text import summary_text
from domain.log.job_log import JobLogError
from tui.commands.command import (
    JSON,
    NO,
    Command,
    CommandAnswer,
    CommandOption,
    Environment,
    TypedArgument,
    UnusableError,
    require_terminal,
)
from tui.commands.new_file import new_pdf
from tui.services import Services

_SUMMARY = CommandOption("--summary", "how this person's practice stands", "NAME")
_OUT = CommandOption("--out", "the summary as one page of PDF; no file is written over", "FILE.pdf")


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Open the practice; or answer how it stands."""
    if typed.has(_SUMMARY.name):
        return _summary(typed, environment)
    if typed.has(_OUT.name):
        raise UnusableError(f"--out goes with --summary NAME; usage: {COMMAND.usage}")
    if typed.has(JSON.name):
        with environment.open_services() as services:
            return CommandAnswer(list(practisers(services.log)), "")
    require_terminal()
    return CommandAnswer(None, "", environment.screens(environment.place(), practises=True))


def _summary(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    out = new_pdf(typed.value(_OUT.name))
    with environment.open_services() as services:
        who = named(services.log, typed.value(_SUMMARY.name))
        if who is None:
            return _unknown(typed.value(_SUMMARY.name), services)
        now = services.now()
        summary = summary_of(who, answers_of(services.log, who, now), cases(), now.date())
        if out:
            _write(summary, out, services)
    written = {"file": str(out)} if out else {}
    return CommandAnswer(_as_value(summary) | written, str(out) if out else summary_text(summary).rstrip("\n"))


def _unknown(name: str, services: Services) -> CommandAnswer:
    known = practisers(services.log)
    says = f"Practised so far: {', '.join(known)}" if known else "Nobody has practised yet"
    return CommandAnswer(
        {"who": name, "found": False, "practised": list(known)}, f"No practice of {name} is kept. {says}", NO
    )


def _as_value(summary: Summary) -> dict[str, object]:
    following: dict[str, object] = {"practise_next": [line.kind.value for line in summary.practise_next]}
    return summary.model_dump(mode="json") | following | {"note": cautions()["summary"]}


def _write(summary: Summary, out: Path, services: Services) -> None:
    try:
        services.write_new(out, services.bind_summary(summary).pdf)
    except OSError as error:
        raise JobLogError(f"{out} cannot be written: {error.strerror or error}") from None


COMMAND = Command(
    name="practice",
    run=run,
    options=(_SUMMARY, _OUT, JSON),
    explains="Without --summary the practice opens in the terminal; with --json alone it names who practised.\n"
    "Exit 1: nobody of that name has practised. A summary tells of practice; it is not an assessment of competence.",
)
