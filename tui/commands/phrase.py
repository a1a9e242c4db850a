"""`phrase`: a person's signing phrase set or changed, and whether one is required of all."""

from domain.value import cleaned
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
from tui.commands.typed_phrase import typed_phrase

_REQUIRE = CommandOption("--require", "yes or no: everybody who signs in this log needs one", "YES|NO")


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Keep a phrase that is typed unseen, or read from standard input; or keep that one is required of all."""
    required = typed.value(_REQUIRE.name).casefold()
    if bool(typed.words) is bool(required) or required not in {"", "yes", "no"}:
        raise UnusableError(f"Name a person, or say {_REQUIRE.name} yes or no; usage: {COMMAND.usage}")
    with environment.open_services(begins=True) as services:
        if required:
            services.log.require_phrases(required=required == "yes", who=services.who, at=services.now())
            of_whom = "everybody who signs" if required == "yes" else "those only who set one"
            return CommandAnswer({"required": required == "yes"}, f"A signing phrase is asked of {of_whom}")
        name = cleaned(typed.words[0])
        before = typed_phrase("The signing phrase as it is (empty where there is none): ")
        phrase, again = typed_phrase("The new signing phrase: "), typed_phrase("The same again: ")
        if phrase != again:
            raise UnusableError("The two were not the same; nothing was changed")
        why_not = services.log.set_phrase(name, phrase, before=before, who=services.who, at=services.now())
    if why_not:
        return CommandAnswer({"set": False, "says": why_not}, f"✗ {why_not}", NO)
    return CommandAnswer({"set": True}, f"From now on nobody signs as {name} without it; it is kept only as a hash")


COMMAND = Command(
    name="phrase",
    run=run,
    words="[NAME]",
    least=0,
    most=1,
    options=(_REQUIRE, JSON),
    explains="The person is one of the register. Typed are the phrase as it is, the new one, and that again; from a pipe, a line each.\n"
    "Nobody signs as a person who has one without it. After three wrong ones there is a pause, which grows.\n"
    "Exit 1: the phrase cannot be kept, with the reason.",
)
