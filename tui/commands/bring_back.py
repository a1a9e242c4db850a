"""`bring-back`: jobs given back to the office."""

from datetime import datetime

from tui.commands.command import JSON, Command, CommandAnswer, Environment, TypedArgument
from tui.commands.firm_words import laptops_of
from tui.commands.take_out import numbers_typed


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Give back the jobs that were named, or all that are out."""
    with environment.open_services() as services:
        laptops = laptops_of(services)
        numbers = numbers_typed(typed) or laptops.out()
        for number in numbers:
            laptops.bring_back(number, at=datetime.now().astimezone())
    said = [f"{number} goes back to the office with the next exchange, and can only be read here" for number in numbers]
    return CommandAnswer(list(numbers), "\n".join(said) or "Nothing is out with this laptop")


COMMAND = Command(
    name="bring-back",
    run=run,
    words="[NUMBER...]",
    most=None,
    options=(JSON,),
    explains="Without a number, all that this laptop has out. From then on nobody changes them until the office has heard.",
)
