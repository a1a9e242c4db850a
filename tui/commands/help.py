"""`help`: how a command is typed and what it answers."""

from tui.commands.command import JSON, Command, CommandAnswer, CommandOption, Environment, TypedArgument
from tui.commands.help_text import help_on, help_on_all, man_page
from tui.commands.registry import SUMMARIES, command_named

_MAN = CommandOption("--man", "the whole manual as a man page, in roff")


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Help on one command, the list of all, or the man page."""
    if typed.has(_MAN.name):
        page = man_page()
        return CommandAnswer({"man": page}, page)
    if typed.words:
        command = command_named(typed.words[0])
        told = help_on(command)
        value = {"command": command.name, "usage": command.usage, "says": SUMMARIES[command.name], "help": told}
        return CommandAnswer(value, told)
    listed = [{"command": name, "says": summary} for name, summary in SUMMARIES.items()]
    return CommandAnswer(listed, help_on_all())


COMMAND = Command(
    name="help",
    run=run,
    words="[COMMAND]",
    most=1,
    choices=tuple(SUMMARIES),
    options=(_MAN, JSON),
    explains="To keep the man page: ohmfolio help --man > ~/.local/share/man/man1/ohmfolio.1, once that folder is there.",
)
