"""What can be done with the log as a whole: what each asks, and the command that it comes to."""

import re
from collections.abc import Callable, Mapping
from datetime import date
from pathlib import Path
from typing import NamedTuple

from domain.log.search_words import number_written
from tui.routes import Route, ToOffice
from tui.screens.dialogs import FormScreen
from tui.tasks import Task
from tui.widgets.entry_lines import AskedLine, EntryOption

Typed = Mapping[str, str]

_ALL = "all"
NUMBER = re.compile(r"[A-Z]{1,4}-\d{4,}")
"""As the log writes numbers of jobs."""
_NO, _YES = "no", "yes"


class Offer(NamedTuple):
    """What a form puts forward."""

    today: date
    packs: Path
    """Folder of packs and drafts."""
    number: str
    """Of the job somebody was in last; "" where there is none."""
    before: Typed
    """What was typed into it the last time."""
    laptop: str = ""
    """The letters of the only laptop of the office."""


class KeepingTask(NamedTuple):
    """One thing that can be done."""

    letter: str
    title: str
    says: str
    lines: Callable[[Offer], tuple[AskedLine, ...]]
    about: str
    typed: Callable[[Typed], tuple[str, ...]]
    """As it might have been typed after `ohmfolio`."""
    closes_log: bool = False
    """Nobody may have the log open meanwhile."""
    asks_first: str = ""
    """What is asked before the log is closed, with what was typed in braces."""
    leads_to: Route | None = None
    """Another screen, where it is one."""

    def form(self, offer: Offer) -> FormScreen:
        """Asks the few questions, with what was typed the last time put forward."""
        lines = (
            AskedLine(
                line.name,
                line.label,
                "" if line.is_secret else offer.before.get(line.name, line.text),
                must=line.must,
                options=line.options,
                is_secret=line.is_secret,
            )
            for line in self.lines(offer)
        )
        return FormScreen(self.title, tuple(lines), self.about)

    def task(self, typed: Typed) -> Task:
        """The command that the answers come to."""
        given = f"{typed['phrase']}\n{typed['again']}\n" if typed.get("phrase") else ""
        return Task(self.title, self.typed(typed), given)


def leading_to(letter: str, title: str, says: str, route: Route) -> KeepingTask:
    """A row that leads to another screen."""
    return KeepingTask(letter, title, says, nothing_asked, "", _nothing_typed, leads_to=route)


def nothing_asked(_: Offer) -> tuple[AskedLine, ...]:
    """Where there is nothing to ask."""
    return ()


def _nothing_typed(_: Typed) -> tuple[str, ...]:
    return ()


def whole_path(file: str) -> str:
    """The command is done in another folder than the one somebody stands in."""
    return str(Path(file).expanduser().absolute())


def _copy_lines(offer: Offer) -> tuple[AskedLine, ...]:
    return (
        AskedLine("file", "New file", str(Path.home() / f"ohmfolio-copy-{offer.today}.ohmfolio")),
        AskedLine("phrase", "Phrase, if any", is_secret=True),
        AskedLine("again", "The same again", is_secret=True),
    )


def _copy_typed(typed: Typed) -> tuple[str, ...]:
    locked = ("--with-key",) if typed["phrase"] else ()
    return ("backup", *((whole_path(typed["file"]),) if typed["file"] else ()), *locked)


def _restore_lines(offer: Offer) -> tuple[AskedLine, ...]:
    copies = sorted(offer.packs.parent.glob("copies/*.ohmfolio"))
    return (AskedLine("file", "Copy", str(copies[-1]) if copies else "", must=True),)


def _restore_typed(typed: Typed) -> tuple[str, ...]:
    return ("restore", whole_path(typed["file"]))


def _bring_in_lines(_: Offer) -> tuple[AskedLine, ...]:
    return (AskedLine("file", "File (JSON)", must=True),)


def _bring_in_typed(typed: Typed) -> tuple[str, ...]:
    return ("bring-in", whole_path(typed["file"]))


def _hand_over_lines(offer: Offer) -> tuple[AskedLine, ...]:
    return (
        AskedLine("jobs", "Which", offer.number, must=True),
        AskedLine("file", "New file", str(offer.packs.parent / f"jobs-{offer.today}.json"), must=True),
    )


def _hand_over_typed(typed: Typed) -> tuple[str, ...]:
    asked = typed["jobs"]
    if asked.casefold() == _ALL:
        which: tuple[str, ...] = ("--all",)
    else:
        number = number_written(asked)
        which = (number,) if NUMBER.fullmatch(number) else ("--find", asked)
    return ("hand-over", "--to", whole_path(typed["file"]), *which)


def _read_in_lines(offer: Offer) -> tuple[AskedLine, ...]:
    options = (
        EntryOption("N", _NO, "readings that stand there already hold all of it up"),
        EntryOption("Y", _YES, "the file's readings take their place"),
    )
    return (
        AskedLine("file", "CSV file", must=True),
        AskedLine("number", "Into job", offer.number, must=True),
        AskedLine("columns", "Columns"),
        AskedLine("by", "or as kept under"),
        AskedLine("save", "Keep columns as"),
        AskedLine("board", "Board, if several"),
        AskedLine("replace", "Replace", _NO, options=options),
    )


def _read_in_typed(typed: Typed) -> tuple[str, ...]:
    named = {"--columns": "columns", "--by": "by", "--save": "save", "--board": "board"}
    given = (part for option, name in named.items() if typed[name] for part in (option, typed[name]))
    replace = ("--replace",) if typed["replace"] == _YES else ()
    return ("read-in", *given, *replace, whole_path(typed["file"]), number_written(typed["number"]))


def _tend_lines(_: Offer) -> tuple[AskedLine, ...]:
    anew = (
        EntryOption("N", _NO, "passes over what an earlier look proved"),
        EntryOption("Y", _YES, "trusts no earlier look"),
    )
    mend = (
        EntryOption("N", _NO, "nothing is changed"),
        EntryOption("Y", _YES, "what follows from the rest is made anew"),
    )
    return (
        AskedLine("since", "Touched since"),
        AskedLine("anew", "All anew", _NO, options=anew),
        AskedLine("mend", "Mend", _NO, options=mend),
    )


def _tend_typed(typed: Typed) -> tuple[str, ...]:
    flags = (f"--{name}" for name in ("anew", "mend") if typed[name] == _YES)
    return ("tend", *flags, *(("--since", typed["since"]) if typed["since"] else ()))


KEEPING_TASKS = (
    KeepingTask(
        "c",
        "Copy of the log",
        "Copy the log, papers and all, into a new file",
        _copy_lines,
        "Keep some copies away from this computer. With a phrase, typed twice, the key of the seal goes into the copy,"
        " locked by it. With no file named, the copy of the day is kept beside the log.",
        _copy_typed,
    ),
    KeepingTask(
        "g",
        "Go back to a copy",
        "Put a copy in the place of the log, once it is proved",
        _restore_lines,
        "The file of a copy. The log as it is now is kept aside, in a folder of its own.",
        _restore_typed,
        closes_log=True,
        asks_first="Put {file} in the place of the log?",
    ),
    KeepingTask(
        "h",
        "Hand over jobs",
        "Write jobs into a file that another log brings in",
        _hand_over_lines,
        f"The number of a job, words as in Find, or {_ALL}. No file is written over.",
        _hand_over_typed,
    ),
    KeepingTask(
        "b",
        "Bring in jobs",
        "Take jobs from such a file into this log, as new drafts",
        _bring_in_lines,
        "Each job gets a number of this log. All of them are taken in, or none.",
        _bring_in_typed,
    ),
    KeepingTask(
        "r",
        "Read in readings",
        "Type readings from a table (CSV) into a job",
        _read_in_lines,
        "Columns, such as: number=Circuit; zs=Zs. On the left a box, on the right the heading of its column; or the name"
        " that such columns were kept under. All of the file is read in, or nothing.",
        _read_in_typed,
    ),
    KeepingTask(
        "l",
        "Look after the log",
        "Look whether all is whole, and mend what can be",
        _tend_lines,
        "With a day, only the jobs touched since are gone through; left empty, all of them.",
        _tend_typed,
    ),
    leading_to("o", "Office and laptops", "Take jobs out, bring back, exchange, settle", ToOffice()),
)
