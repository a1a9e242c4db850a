"""Finds the command that was typed, runs it, and prints its answer."""

import os
import sys
from importlib.metadata import PackageNotFoundError, version

from domain.log.job_log import JobLogError
from tui.commands.command import FINE, NO, UNUSABLE, Command, Environment, UnusableError, require_terminal
from tui.commands.output import as_json, visible
from tui.commands.parsing import parse

_LONGEST = 600
"""Letters of a complaint; what was given may be a megabyte."""


class _AnswerLostError(Exception):
    """The answer cannot be printed."""


def run(typed: list[str], wiring: Environment) -> int:
    """Do what was typed after `ohmfolio`; the exit code."""
    try:
        return _done(typed, wiring)
    except (UnusableError, JobLogError) as error:
        return _complain(str(error))
    except KeyboardInterrupt:
        _complain("Stopped")
        return 130
    except _AnswerLostError as error:
        # What is still buffered must not complain once more when the program ends.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        reader_left = isinstance(error.__cause__, BrokenPipeError)
        return FINE if reader_left else _complain(f"The answer cannot be written: {error}")
    except OSError as error:
        return _complain(f"{error.filename or 'The system'}: {error.strerror or error}")


def _done(typed: list[str], wiring: Environment) -> int:
    if not typed:
        require_terminal()
        home = wiring.home()
        code = wiring.screens(home)
        wiring.left(home)
        return code
    first, *rest = typed
    if first in {"--version", "-V"}:
        _print(f"ohmfolio {_version()}")
        return FINE
    if first in {"help", "--help", "-h"}:
        _print(_help(rest[0] if rest else ""))
        return FINE
    command = _named(first)
    if {"--help", "-h"} & set(rest):
        _print(_help(command.name))
        return FINE
    words = parse(command, rest)
    answer = command.run(words, wiring)
    _print(as_json(answer.value) if words.has("--json") else visible(answer.text, newlines=True))
    return answer.code


def _every() -> tuple[Command, ...]:
    # Loaded when a command was typed; the screens need none of them.
    from tui.commands.registry import COMMANDS

    return COMMANDS


def _named(name: str) -> Command:
    for command in _every():
        if command.name == name:
            return command
    raise UnusableError(f"There is no command {name!r}; ohmfolio help lists them")


def _help(name: str) -> str:
    if name:
        command = _named(name)
        options = (f"  {option.name} {option.takes}".ljust(22) + option.says for option in command.options)
        told = (f"usage: {command.usage}", command.summary.capitalize() + ".", *options, command.explains)
        return "\n".join(filter(None, told))
    return "\n".join(
        [
            "ohmfolio                  opens the job log in the terminal",
            *(f"ohmfolio {command.name:<16} {command.summary}" for command in _every()),
            "ohmfolio help COMMAND     how a command is typed and what it answers",
            "",
            "The log is kept in OHMFOLIO_HOME when that is set, else where this computer keeps data of programs.",
            f"Exit codes: {FINE} fine; {NO} the answer is no; {UNUSABLE} the input cannot be used and nothing was written.",
        ]
    )


def _print(text: str) -> None:
    if not text:
        return
    try:
        print(text, flush=True)
    except OSError as error:
        raise _AnswerLostError(error.strerror or str(error)) from error


def _complain(sentence: str) -> int:
    said = visible(sentence)
    print(said if len(said) <= _LONGEST else f"{said[:_LONGEST]}…", file=sys.stderr)
    return UNUSABLE


def _version() -> str:
    try:
        return version("ohmfolio")
    except PackageNotFoundError:
        return "from a checkout"
