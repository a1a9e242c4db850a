"""`bring-in`: a job from a file into the log."""

from domain.log.job_log import JobLine
from tui.commands.command import JSON, Command, CommandAnswer, CommandOption, Environment, TypedArgument, UnusableError
from tui.commands.find import line_as_value
from tui.commands.input_files import jobs_in
from tui.commands.numbers import begin_numbers

_LETTERS = CommandOption(
    "--letters", "the letters that numbers of this log begin with, where it has no job yet", "LETTERS"
)


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Keep the job in a file, or every job in its list, as drafts with numbers of this log; all of them or none."""
    held = jobs_in(typed.words[0], environment.documents())
    many = isinstance(held, tuple)
    if many and not held:
        raise UnusableError(f"{typed.words[0]}: there is no job in its list")
    with environment.open_services(begins=True) as services:
        if letters := typed.value(_LETTERS.name):
            begin_numbers(services, letters)
        jobs = held if many else (held,)
        kept = services.log.create_all(jobs, who=services.who, at=services.now())
        lines = [line for job in kept if (line := services.log.line(job.number))]
    values = [line_as_value(line) for line in lines]
    return CommandAnswer(values if many else values[0], _as_text(lines))


def _as_text(lines: list[JobLine]) -> str:
    return "\n".join(f"In the log as {line.number}, {line.state}" for line in lines)


COMMAND = Command(
    name="bring-in",
    run=run,
    words="JOBS.json",
    least=1,
    most=1,
    options=(_LETTERS, JSON),
    explains=(
        "JOBS.json holds a job or a list of them; each gets a new number. Of a list every job is taken in, or none. Signatures that fit a job are kept, unless it was issued or a signing phrase is asked of the signer; that it was issued elsewhere or replaces a paper is not. What is not kept, the trail tells."
    ),
)
