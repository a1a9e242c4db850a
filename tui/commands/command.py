"""What a command of the command line is, what it is given, and what it answers."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Generator, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path
    from typing import IO

    from domain.editing.reading_table import Columns, ReadingRow
    from domain.forms.choice.answers import Answers
    from domain.gate.proof import Proof
    from domain.job.job import Job
    from domain.laptops.bundle import Exchanged
    from domain.laptops.holding import Station
    from domain.log.job_log import JobLog
    from domain.log.upkeep import FolderUpkeep, MovedLog, Upkeep
    from tui.configuration import Configuration
    from tui.journal import Journal
    from tui.log_place import LogPlace
    from tui.services import Services

FINE, NO, UNUSABLE, CANNOT_TELL = 0, 1, 2, 3
"""Exit codes: fine; the answer is no; the input cannot be used and nothing was written; nobody here can tell."""


def aside(sentence: str) -> None:
    """Tell the person something beside the answer, where no script reads it."""
    from tui.terminal.safe_text import safe_text

    print(safe_text(sentence), file=sys.stderr)


class UnusableError(Exception):
    """The input cannot be used; the message is one plain sentence for the person."""


def require_terminal() -> None:
    """The screens need somebody who types; without a terminal nothing is begun."""
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise UnusableError("The screens need a terminal; ohmfolio help lists what works without one")
    from tui.terminal.abilities import moves_cursor

    if not moves_cursor(os.environ):
        kind = os.environ["TERM"]
        raise UnusableError(f"A {kind!r} terminal cannot show the screens; ohmfolio help lists what works on it")


class Screens(Protocol):
    """Runs the terminal screens on the log of a place until the person leaves; the exit code."""

    def __call__(self, place: LogPlace, *, practises: bool = False) -> int:
        """Open at the first question, or at practice."""
        ...


class MovesLog(Protocol):
    """Moves the log of one place to another."""

    def __call__(self, place: LogPlace, to: LogPlace, *, at: datetime) -> MovedLog:
        """Move it whole, or say why not."""
        ...


class FirmWork(Protocol):
    """What an office and its laptops do by files and lines."""

    def write_first(self, to: Path, *, at: datetime) -> None:
        """Write the file that a laptop begins with, right after it was enrolled."""
        ...

    def join(self, first: Path, *, at: datetime) -> Station:
        """Begin the log of a laptop with such a file."""
        ...

    def in_folder(self, log: JobLog, folder: Path, *, at: datetime, trust: str = "") -> list[Exchanged]:
        """Exchange by a folder that both sides see."""
        ...

    def by_line(
        self, log: JobLog, incoming: IO[bytes], outgoing: IO[bytes], *, at: datetime, calls: bool, trust: str = ""
    ) -> list[Exchanged]:
        """Exchange over a line, as the one who calls or the one who answers."""
        ...


class ProofOf(Protocol):
    """Judges the bytes of a file."""

    def __call__(self, pdf: bytes, log: JobLog | None, *, firm: tuple[str, ...] = ()) -> Proof:
        """The answer; `firm` are the fingerprints of the firm that it is asked about."""
        ...


class GivenDocuments(Protocol):
    """Reads what anybody may have written, in a process of its own."""

    def job_given(self, document: bytes) -> Job:
        """The job in a document; ExchangeError where it holds none."""
        ...

    def jobs_given(self, document: bytes) -> tuple[Job, ...] | Job:
        """The job in a document, or each of those in its list; ExchangeError where one cannot be used."""
        ...

    def answers_given(self, document: bytes) -> Answers:
        """The answers in a document; AnswersError where it holds none that can be used."""
        ...

    def rows_given(self, document: bytes, columns: Columns) -> tuple[ReadingRow, ...]:
        """The rows of a table; ReadingTableError where it has none under these headings."""
        ...


@dataclass(frozen=True, slots=True)
class Environment:
    """How commands reach the world outside; each part is made only when it is asked for."""

    configuration: Callable[[], Configuration]
    """What the person has set."""
    place: Callable[[], LogPlace]
    """Where the job log is."""
    has_log: Callable[[LogPlace], bool]
    """Whether there is one already; opening begins one where there is none."""
    services: Callable[[LogPlace], Services]
    """Opens the log of a place."""
    upkeep: Callable[[LogPlace], Upkeep]
    """Looks after the log of a place, whether or not that can be opened."""
    folder_upkeep: Callable[[LogPlace], FolderUpkeep]
    """Makes copies of a log in a folder, and goes back to them; says so where the log is kept elsewhere."""
    move: MovesLog
    firm: Callable[[LogPlace], FirmWork]
    """What an office and its laptops do by files and lines, for the log of a place."""
    screens: Screens
    left: Callable[[LogPlace], None]
    """What is done, without keeping anybody waiting, once the person has left the screens of a log."""
    proof_of: ProofOf
    """Whether the bytes of a file are a paper as it was issued, by a log, by the fingerprints of a firm's keys, or alone."""
    documents: Callable[[], GivenDocuments]
    """Reads jobs and tables that anybody may have written."""
    journal: Callable[[], Journal]
    """Takes a line for whoever looks after the computer."""
    run_as: Callable[[str, list[str]], int]
    """Does what was typed as somebody whom this computer knows by another way than an account of their own; the exit code."""

    @contextmanager
    def open_services(self, place: LogPlace | None = None, *, begins: bool = False) -> Generator[Services, None, None]:
        """The services with the log open, and closed again at the end.

        What only reads, or changes what is there, does not begin a log where there is none: the place may be mistyped.
        """
        place = place or self.place()
        is_new = not self.has_log(place)
        if is_new and not begins:
            raise UnusableError(
                f"There is no job log in {place}; ohmfolio begins one there, ohmfolio config tells who names the place"
            )
        services = self.services(place)
        try:
            if is_new:
                from tui.new_log import letters_asked

                letters_asked(services, self.configuration())
            if refuses := services.log.refuses():
                aside(f"! {refuses}")
            yield services
        finally:
            services.log.close()


@dataclass(frozen=True, slots=True)
class TypedArgument:
    """What was typed after a command's name."""

    words: tuple[str, ...] = ()
    options: Mapping[str, str] = field(default_factory=dict[str, str])

    def has(self, option: str) -> bool:
        """The option was typed."""
        return option in self.options

    def value(self, option: str) -> str:
        """What was typed for an option; "" when it was not."""
        return self.options.get(option, "")


@dataclass(frozen=True, slots=True)
class CommandAnswer:
    """A command's answer: the value for scripts, the text for people."""

    value: object
    text: str
    code: int = FINE


@dataclass(frozen=True, slots=True)
class StreamedAnswer:
    """An answer as long as the log: printed as it is found, and never held whole. One of the two is asked for."""

    values: Callable[[], Iterator[object]]
    """What one JSON array holds."""
    lines: Callable[[], Iterator[str]] | None = None
    """The text for people; None where that is the JSON too."""
    code: int = FINE


@dataclass(frozen=True, slots=True)
class CommandOption:
    """One option; `takes` names its value, and is empty where it has none."""

    name: str
    says: str
    takes: str = ""
    choices: tuple[str, ...] = ()
    """The values it may have, in capitals or not; any where empty."""


HELP = CommandOption("--help", "this help")
JSON = CommandOption("--json", "answer with one JSON value")


@dataclass(frozen=True, slots=True)
class Command:
    """One command."""

    name: str
    run: Callable[[TypedArgument, Environment], CommandAnswer | StreamedAnswer]
    words: str = ""
    """The words it takes, as usage shows them."""
    least: int = 0
    most: int | None = 0
    choices: tuple[str, ...] = ()
    """Words that a shell offers."""
    options: tuple[CommandOption, ...] = (JSON,)
    explains: str = ""
    """More for `help`, such as the exit codes: a paragraph a line."""

    @property
    def usage(self) -> str:
        """One line: how it is typed."""
        options = (f"[{option.name}{' ' + option.takes if option.takes else ''}]" for option in self.options)
        return " ".join(part for part in ("ohmfolio", self.name, self.words, *options) if part)

    @property
    def every_option(self) -> tuple[CommandOption, ...]:
        """Its options, and the one that every command has."""
        return (*self.options, HELP)
