"""`replace`: a correction begun in the place of an issued document."""

from domain.editing.commands import Declined
from domain.value import cleaned
from tui.commands.check import not_found
from tui.commands.command import (
    JSON,
    NO,
    Command,
    CommandAnswer,
    CommandOption,
    Environment,
    TypedArgument,
    UnusableError,
)

_BECAUSE = CommandOption("--because", "why it is replaced; printed on the new document", "REASON")


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """A new draft like the issued document, which names it and the reason."""
    number, because = cleaned(typed.words[0]), typed.value(_BECAUSE.name)
    if not because.strip():
        raise UnusableError(f"replace needs a reason; usage: {COMMAND.usage}")
    with environment.open_services() as services:
        if services.log.line(number) is None:
            return not_found(number)
        begun = services.log.replace(number, because=because, who=services.who, at=services.now())
    if isinstance(begun, Declined):
        return CommandAnswer({"number": None, "replaces": number, "says": begun.says}, f"✗ {begun.says}", NO)
    return CommandAnswer(
        {"number": begun.number, "replaces": begun.replaces, "because": begun.replaces_because},
        f"{begun.number} will replace {begun.replaces} once it is signed and issued",
    )


COMMAND = Command(
    name="replace",
    run=run,
    words="NUMBER",
    least=1,
    most=1,
    options=(_BECAUSE, JSON),
    explains="A new draft is begun. It holds all that was issued, readings too, and is signed anew. Both documents stay in the log.\n"
    "Exit 1: there is no such document, or it cannot be replaced.",
)
