"""`numbers`: the letters that the numbers of this log begin with, chosen before the first is given."""

from domain.job.job_number import prefix_offered
from domain.value import cleaned
from tui.commands.command import JSON, Command, CommandAnswer, Environment, TypedArgument, UnusableError
from tui.services import Services


def run(typed: TypedArgument, wiring: Environment) -> CommandAnswer:
    """Choose the letters, or show them."""
    with wiring.at_desk(begins=bool(typed.words)) as desk:
        if typed.words:
            begin_numbers(desk, typed.words[0])
        now = desk.log.numbering()
        offered = "" if desk.log.firm else prefix_offered(desk.who)
    said = [f"Numbers of this log begin with {now.prefix}: {now.last or 'none is given yet'}"]
    if offered and not now.given and not typed.words:
        said.append(
            f"Where more than one computer keeps a log, each takes letters of its own: ohmfolio numbers {offered}"
        )
    said.append(f"The log itself is {now.device}; that sets it apart from one with the same letters")
    return CommandAnswer(now._asdict() | {"last": now.last}, "\n".join(said))


def begin_numbers(desk: Services, typed: str) -> None:
    """Choose the letters; UnusableError where they cannot be chosen any more."""
    if why_not := desk.log.begin_numbers(cleaned(typed).upper()):
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
