"""`completion`: what a shell needs to complete commands and options."""

from tui.commands.command import Command, CommandAnswer, Environment, TypedArgument, UnusableError
from tui.commands.completing import HINTS, script_for


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """The script for a shell, its first lines saying how it is kept."""
    shell = typed.words[0]
    if shell not in HINTS:
        raise UnusableError(f"completion is for {', '.join(HINTS)}; not for {shell!r}")
    script = script_for(shell)
    return CommandAnswer({"shell": shell, "keep": HINTS[shell], "script": script}, script)


COMMAND = Command(
    name="completion",
    run=run,
    words="SHELL",
    least=1,
    most=1,
    choices=tuple(HINTS),
    explains="SHELL is bash, zsh or fish. The first lines of the answer say how it is kept for every new shell.\n"
    "The shell then asks ohmfolio itself, so that it always completes the commands of the program that is installed.",
)
