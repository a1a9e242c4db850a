"""`visit-sheet`: what to have in hand on site, as text, JSON or one page of PDF."""

from domain.coach.visit_sheet import Visit, visit_parts, visit_text
from domain.log.firm_logo import logo_of
from domain.log.job_log import JobLogError
from domain.value import cleaned
from tui.commands.check import not_found
from tui.commands.command import JSON, Command, CommandAnswer, CommandOption, Environment, TypedArgument
from tui.commands.new_file import new_pdf

_OUT = CommandOption("--out", "write it as one page of PDF; no file is written over", "FILE.pdf")


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """The sheet of the job named, on standard output or in a new file."""
    out = new_pdf(typed.value(_OUT.name))
    with environment.open_services() as services:
        job = services.log.load(cleaned(typed.words[0]))
        if job is None:
            return not_found(typed.words[0])
        visit = Visit(job=job, on=services.now().date(), logo=logo_of(services.log, job))
        if out:
            try:
                services.write_new(out, services.bind_visit(visit).pdf)
            except OSError as error:
                raise JobLogError(f"{out} cannot be written: {error.strerror or error}") from None
    value: dict[str, object] = {"number": job.number, "parts": [part.model_dump() for part in visit_parts(visit)]}
    written = {"file": str(out)} if out else {}
    return CommandAnswer(value | written, str(out) if out else visit_text(visit).rstrip("\n"))


COMMAND = Command(
    name="visit-sheet",
    run=run,
    words="NUMBER",
    least=1,
    most=1,
    options=(_OUT, JSON),
    explains="It repeats what the job tells, with the order of tests and of making dead. It replaces no look round on site.",
)
