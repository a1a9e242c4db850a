"""Finds the command that was typed, runs it, and prints its answer."""

import os
import sys
from collections.abc import Iterator

from domain.log.job_log import JobLogError
from tui.commands.command import (
    FINE,
    UNUSABLE,
    Environment,
    StreamedAnswer,
    TypedArgument,
    UnusableError,
    require_terminal,
)
from tui.commands.output import as_json, as_json_array
from tui.configuration import ConfigurationError
from tui.terminal.safe_text import safe_text
from tui.version import version_text

_LONGEST = 600
"""Letters of a complaint; what was given may be a megabyte."""


class _AnswerLostError(Exception):
    """The answer cannot be printed."""


def run(typed: list[str], environment: Environment) -> int:
    """Do what was typed after `ohmfolio`; the exit code."""
    try:
        return _done(typed, environment)
    except (UnusableError, ConfigurationError, JobLogError) as error:
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


def _done(typed: list[str], environment: Environment) -> int:
    if not typed:
        require_terminal()
        place = environment.place()
        code = environment.screens(place)
        environment.left(place)
        return code
    first, *rest = typed
    if first in {"--version", "-V"}:
        _print(version_text())
        return FINE
    # Loaded when a command was typed; the screens need none of it.
    from tui.commands.parsing import HelpAskedError, parse
    from tui.commands.registry import command_named

    if first in {"--help", "-h"}:
        first = "help"
    command = command_named(first)
    try:
        words = parse(command, rest)
    except HelpAskedError:
        command, words = command_named("help"), TypedArgument(words=(command.name,))
    answer = command.run(words, environment)
    if isinstance(answer, StreamedAnswer):
        lines = None if words.has("--json") else answer.lines
        _print_all(_joined(lines()) if lines else as_json_array(answer.values()))
    else:
        _print(as_json(answer.value) if words.has("--json") else safe_text(answer.text, newlines=True))
    return answer.code


def _joined(lines: Iterator[str]) -> Iterator[str]:
    for turn, line in enumerate(lines):
        yield f"{chr(10) if turn else ''}{safe_text(line, newlines=True)}"


def _print_all(pieces: Iterator[str]) -> None:
    found = next(pieces, "")
    try:
        while found:
            sys.stdout.write(found)
            # What fails in finding the rest is no fault of writing.
            found = _next_of(pieces)
        sys.stdout.write("\n")
        sys.stdout.flush()
    except OSError as error:
        raise _AnswerLostError(error.strerror or str(error)) from error


def _next_of(pieces: Iterator[str]) -> str:
    try:
        return next(pieces, "")
    except OSError as error:
        raise UnusableError(f"{error.filename or 'The system'}: {error.strerror or error}") from error


def _print(text: str) -> None:
    if not text:
        return
    try:
        print(text, flush=True)
    except OSError as error:
        raise _AnswerLostError(error.strerror or str(error)) from error


def _complain(sentence: str) -> int:
    said = safe_text(sentence)
    print(said if len(said) <= _LONGEST else f"{said[:_LONGEST]}…", file=sys.stderr)
    return UNUSABLE
