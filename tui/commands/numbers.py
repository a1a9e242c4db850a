"""`numbers`: the letters that the numbers of this log begin with, chosen before the first is given."""

from domain.job.job_number import prefix_offered
from domain.value import cleaned
from tui.commands.command import JSON, Command, CommandAnswer, Environment, TypedArgument, UnusableError
from tui.services import Services


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Choose the letters, or show them."""
    with environment.open_services(begins=bool(typed.words)) as services:
        if typed.words:
            begin_numbers(services, typed.words[0])
        now = services.log.numbering()
        offered = "" if services.log.firm else prefix_offered(services.who)
    said = [f"Numbers of this log begin with {now.prefix}: {now.last or 'none is given yet'}"]
    if offered and not now.given and not typed.words:
        said.append(
            f"Where more than one computer keeps a log, each takes letters of its own: ohmfolio numbers {offered}"
        )
    said.append(f"The log itself is {now.device}; that sets it apart from one with the same letters")
    return CommandAnswer(now._asdict() | {"last": now.last}, "\n".join(said))


def begin_numbers(services: Services, typed: str) -> None:
    """Choose the letters; UnusableError where they cannot be chosen any more."""
    if why_not := services.log.begin_numbers(cleaned(typed).upper()):
        raise UnusableError(why_not.rstrip("."))


COMMAND = Command(
    name="numbers",
    run=run,
    words="[LETTERS]",
    most=1,
    options=(JSON,),
    explains=(
        "One to four letters, such as your initials. Choose them on each computer before its first job: jobs, papers and files "
        "are named by these numbers, and two logs that both begin with A give the same ones. Once a number is given the letters "
        "stay. Exit 2: they cannot be chosen any more."
    ),
)
