"""`take-out`: a job taken out of the office, to be worked on where the office cannot be reached."""

from datetime import datetime

from domain.job.job_number import is_job_number
from domain.log.search_words import number_written
from domain.value import cleaned
from tui.commands.command import JSON, Command, CommandAnswer, CommandOption, Environment, TypedArgument, UnusableError
from tui.commands.firm_words import laptops_of

_TO = CommandOption("--to", "at the office: the letters of the laptop that takes it", "LETTERS")


def numbers_typed(typed: TypedArgument) -> tuple[str, ...]:
    """The numbers of jobs that were typed."""
    numbers = tuple(number_written(cleaned(word)) for word in typed.words)
    for number in numbers:
        if not is_job_number(number):
            raise UnusableError(f"{number!r} is no number of a job; one is such as A-0001")
    return numbers


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Lend jobs to a laptop, or ask the office for them."""
    with environment.open_services() as services:
        laptops = laptops_of(services)
        at = datetime.now().astimezone()
        said = [laptops.take_out(number, to=typed.value(_TO.name), at=at) for number in numbers_typed(typed)]
    return CommandAnswer(said, "\n".join(said))


COMMAND = Command(
    name="take-out",
    run=run,
    words="NUMBER...",
    least=1,
    most=None,
    options=(_TO, JSON),
    explains=(
        "At the office the job is out at once, and can only be read there; the laptop has it with the next bundle. On a laptop "
        "it is asked for, and comes with what the office sends next.\n"
        "Only whoever has a job out changes or issues it. No clock ends that: ohmfolio bring-back does, or the office says that "
        "the laptop is lost."
    ),
)
