"""Tells words from options in what was typed after a command, and knows what a shell may complete there."""

from collections.abc import Mapping, Sequence

import click
from click.shell_completion import CompletionItem

from tui.commands.command import HELP, Command, CommandOption, TypedArgument, UnusableError

_ENDINGS = (".json", ".csv", ".pdf")


class HelpAskedError(Exception):
    """Help on the command was asked for; nothing else counts then."""


def parse(command: Command, typed: Sequence[str]) -> TypedArgument:
    """The words and options; options may stand anywhere, and after `--` all are words."""
    try:
        found = parser_of(command).make_context(command.name, list(typed)).params
        words: tuple[str, ...] = tuple(found["words"])
        options = {option.name: value for option in command.options if (value := _only(option, found)) is not None}
        _count(command, words)
    except click.UsageError as error:
        says = error.format_message().removesuffix(".")
        raise UnusableError(f"{command.name}: {says}; ohmfolio help {command.name} tells more") from None
    return TypedArgument(words=words, options=options)


def parser_of(command: Command) -> click.Command:
    """The command as the library parses and completes it; it runs nothing."""
    kind = _Offered(command.choices, others=True) if command.choices else _kind(command.words, ())
    words = click.Argument(["words"], nargs=-1, type=kind)
    options = [_as_option(option) for option in command.options]
    asked = click.Option(
        [HELP.name, "-h"], help=HELP.says, is_flag=True, is_eager=True, expose_value=False, callback=_ask_help
    )
    return click.Command(command.name, params=[words, *options, asked], add_help_option=False)


class _Offered(click.ParamType[str]):
    """Words that a shell offers. The library's own choice would name and offer them in small letters."""

    name = "word"

    def __init__(self, words: tuple[str, ...], *, others: bool = False) -> None:
        self._words = words
        self._others = others
        """Other words are let through, for the command itself says what is wrong with them."""

    def convert(self, value: str, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """The word meant, whatever its capitals."""
        for word in self._words:
            if word.casefold() == value.casefold():
                return word
        return value if self._others else self.fail(f"{value!r} is not one of {', '.join(self._words)}", param, ctx)

    def shell_complete(self, ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem[str]]:
        """The words that begin so."""
        return [CompletionItem(word) for word in self._words if word.casefold().startswith(incomplete.casefold())]


def _ask_help(context: click.Context, option: click.Parameter, asked: bool) -> None:  # noqa: FBT001  (the library's signature)
    if asked and not context.resilient_parsing:
        raise HelpAskedError


def _as_option(option: CommandOption) -> click.Option:
    # Each may be typed twice for the library, so that it is not the last one that silently counts.
    names = [option.name, _key(option)]
    if option.takes:
        return click.Option(names, help=option.says, multiple=True, type=_kind(option.takes, option.choices))
    return click.Option(names, help=option.says, count=True)


def _kind(takes: str, choices: tuple[str, ...]) -> click.ParamType[str]:
    """What the value may be, which also says what a shell completes."""
    if choices:
        return _Offered(choices)
    if takes == "FOLDER":
        return click.Path(file_okay=False)
    return click.Path() if "FILE" in takes or any(ending in takes for ending in _ENDINGS) else click.STRING


def _only(option: CommandOption, found: Mapping[str, tuple[str, ...] | int]) -> str | None:
    """What was typed for an option, "" for one without a value; None where it was not typed."""
    held = found[_key(option)]
    typed = ("",) * held if isinstance(held, int) else held
    if len(typed) > 1:
        raise click.UsageError(f"{option.name} is given twice")
    if option.takes and typed == ("",):
        raise click.UsageError(f"{option.name} needs a value: {option.takes}")
    return typed[0] if typed else None


def _count(command: Command, words: tuple[str, ...]) -> None:
    if len(words) < command.least:
        raise click.UsageError(f"It needs {command.words}")
    if command.most is not None and len(words) > command.most:
        raise click.UsageError(f"It cannot use {words[command.most]!r}")


def _key(option: CommandOption) -> str:
    return option.name.removeprefix("--").replace("-", "_")
