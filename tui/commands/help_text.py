"""Help on the commands, for a terminal and as a man page; both are made from the commands themselves."""

import re
from collections.abc import Iterable

from click import HelpFormatter

from domain.words import capitalised, uncapitalised
from tui.commands.command import CANNOT_TELL, FINE, NO, UNUSABLE, Command
from tui.commands.registry import SUMMARIES, command_named
from tui.setting_keys import KEYS
from tui.version import VERSION

WIDTH = 80
"""Columns; the screens ask for no more either."""
_CODES = (
    (FINE, "Fine."),
    (NO, "The answer is no."),
    (UNUSABLE, "The input cannot be used, and nothing was written."),
    (CANNOT_TELL, "Nobody here can tell; only verify ends so."),
)
_SCREENS = "opens the job log in the terminal; F1 explains each screen"
_SCREENS_TOLD = (
    (
        "F1 explains every screen and lists its keys, F2 every box; Ctrl+P lists all that can be done. Esc goes back and loses "
        "nothing, Ctrl+U takes back what was done last, Ctrl+X leaves. Ctrl+L paints the screen anew; Ctrl+Z stops for the shell."
    ),
    (
        "F3 to F9 are the steps of a job; Ctrl+G goes to the next thing that keeps it back. On the first screen / finds a job, F4 "
        "lists what is due, F5 opens the registers, F6 practises."
    ),
    (
        "On schedules Enter keeps an entry and goes on, across the circuit or down the column (Ctrl+T turns the way). F10 is N/A, "
        "F11 LIM, F12 a tick. Ctrl+Y takes a detail from the circuit above, or what a register knows; Ctrl+D fills details down, "
        "readings never. Ctrl+N adds a circuit. A column pasted from a spreadsheet fills down after a question."
    ),
    (
        "Readings stay as typed: 0,35 or >999, LIM and N/V on reports. Dates are taken day first, as 18/11/26 or 18 Nov 2026; T is "
        "today."
    ),
)
_ABOUT = (
    "Certificates and condition reports for UK electrical work, from the first question to the filed copy. With --json a "
    "command that reports prints one JSON value and nothing else."
)


def help_on(command: Command) -> str:
    """How one command is typed and what it answers."""
    page = HelpFormatter(width=WIDTH)
    page.write_usage("ohmfolio", command.usage.removeprefix("ohmfolio "), "usage: ")
    page.write_text(_sentence(SUMMARIES[command.name]))
    page.write_paragraph()
    page.write_dl([(f"{option.name} {option.takes}".strip(), option.says) for option in command.every_option])
    if command.explains:
        page.write_paragraph()
    for paragraph in command.explains.splitlines():
        page.write_text(paragraph)
    return page.getvalue().rstrip("\n")


def help_on_all() -> str:
    """Every command with its summary, and what holds for all of them."""
    page = HelpFormatter(width=WIDTH)
    page.write_text(f"ohmfolio           {_SCREENS}")
    page.write_text("ohmfolio COMMAND   does one thing; ohmfolio help COMMAND explains it:")
    page.write_paragraph()
    with page.indentation():
        page.write_dl(SUMMARIES.items())
    page.write_paragraph()
    page.write_text(
        "The log lies where ohmfolio config says. ohmfolio --version tells the program, its tables and the layout of jobs."
    )
    page.write_text("Exit codes: " + " ".join(f"{code} {uncapitalised(says)}" for code, says in _CODES))
    return page.getvalue().rstrip("\n")


def man_page() -> str:
    """The whole manual in the man macros of roff."""
    lines = [
        f'.TH OHMFOLIO 1 "" "ohmfolio {VERSION}" "User Commands"',
        *_section("NAME", r"ohmfolio \- certificates and condition reports for UK electrical work"),
        *_section("SYNOPSIS", ".B ohmfolio", ".br", ".B ohmfolio", r"\fICOMMAND\fR [\fIWORDS\fR] [\fIOPTIONS\fR]"),
        *_section("DESCRIPTION", _roff(_ABOUT), "Without a command it opens the job log on a terminal."),
        *_section("SCREENS", *(line for told in _SCREENS_TOLD for line in (".PP", _roff(told)))),
        *_section("COMMANDS", *(line for name in SUMMARIES for line in _command_in_roff(command_named(name)))),
        *_section("ENVIRONMENT AND SETTINGS", *_pairs((key.variable, key.says) for key in KEYS)),
        _roff("The same may stand in a file, system-wide or a person's own; ohmfolio config names both files."),
        *_section("EXIT STATUS", *_pairs((str(code), says) for code, says in _CODES)),
        *_section("CAUTION", _roff("It supports a competent person; the current standard, local rules and licensed ")),
        _roff("practice come before it."),
    ]
    return "\n".join(lines)


def _command_in_roff(command: Command) -> Iterable[str]:
    yield f".SS {_roff(command.name)}"
    yield rf"\fB{_roff(command.usage)}\fR"
    yield ".PP"
    yield _roff(_sentence(SUMMARIES[command.name]))
    yield from _pairs((f"{option.name} {option.takes}".strip(), option.says) for option in command.options)
    for paragraph in command.explains.splitlines():
        yield ".PP"
        yield _roff(paragraph)


def _pairs(pairs: Iterable[tuple[str, str]]) -> Iterable[str]:
    for term, says in pairs:
        yield ".TP"
        yield rf"\fB{_roff(term)}\fR"
        yield _roff(says)


def _section(title: str, *lines: str) -> tuple[str, ...]:
    return (f".SH {title}", *lines)


def _roff(text: str) -> str:
    """Text that roff sets as it stands: no letter of it is an instruction, at the beginning of a line neither."""
    safe = text.replace("\\", r"\e").replace("-", r"\-").replace("…", "...")
    return re.sub(r"^(?=[.'])", r"\\&", safe)


def _sentence(text: str) -> str:
    ended = text if text.endswith("?") else f"{text}."
    return capitalised(ended)
