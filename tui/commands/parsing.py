"""Tells words from options in what was typed after a command."""

from tui.commands.command import Command, CommandOption, TypedArgument, UnusableError


def parse(command: Command, typed: list[str]) -> TypedArgument:
    """The words and options; options may stand anywhere, and after `--` all are words."""
    words: list[str] = []
    options: dict[str, str] = {}
    rest = iter(typed)
    for part in rest:
        if part == "--":
            words.extend(rest)
        elif not part.startswith("-") or part == "-":
            words.append(part)
        else:
            name, equals, value = part.partition("=")
            option = _option(command, name)
            if option.name in options:
                raise UnusableError(f"{option.name} is given twice")
            if option.takes and not equals:
                value = next(rest, "")
            if option.takes and not value:
                raise UnusableError(f"{option.name} needs a value: {option.takes}")
            if equals and not option.takes:
                raise UnusableError(f"{option.name} takes no value")
            options[option.name] = value
    if len(words) < command.least:
        raise UnusableError(f"{command.name} needs {command.words}; usage: {command.usage}")
    if command.most is not None and len(words) > command.most:
        raise UnusableError(f"{command.name} cannot use {words[command.most]!r}; usage: {command.usage}")
    return TypedArgument(words=tuple(words), options=options)


def _option(command: Command, name: str) -> CommandOption:
    for option in command.options:
        if option.name == name:
            return option
    raise UnusableError(f"{command.name} has no option {name}; usage: {command.usage}")
