"""Every command by name, in the order `help` lists them; a command itself is loaded only when it is asked for."""

from collections.abc import Mapping
from difflib import get_close_matches
from importlib import import_module

from tui.commands.command import Command, UnusableError

SUMMARIES: Mapping[str, str] = {
    "demo": "open an invented firm's job log, to look around in",
    "choose": "which papers a job needs, why, and what else is owed by when",
    "codes": "what published guidance says of an observation; what codes mean",
    "check": "findings, gaps, snags and outcome of a job; may it be issued?",
    "figure": "a figure with its sum, its source and how far it can be trusted",
    "visit-sheet": "what to have in hand on site: isolation, what stays on, tests",
    "issue": "issue a job: the pack in a folder, or every reason why not",
    "chart": "the chart to fix inside a board, and its labels, ready to print",
    "replace": "begin a correction in the place of an issued document",
    "phrase": "set what a person signs with, or require it of all",
    "keys": "the key that papers are sealed with, and certificates",
    "sign": "a signature by one's own certificate behind a paper",
    "logo": "the logo of a firm, for the letterhead of its papers",
    "find": "jobs of the log, by any words or filters",
    "verify": "is this file what was issued? with the log or without",
    "due": "what is due for the jobs of the log, soonest first",
    "practice": "cases to practise on, and how somebody's practice stands",
    "bring-in": "take jobs from a JSON file into the log, as new drafts",
    "hand-over": "a job of the log, or several, as JSON for another log",
    "read-in": "type readings from a CSV file of any layout into a job",
    "take-boards": "one visit tested by two: boards of one job into the other",
    "backup": "copy the log while it is in use, papers and all",
    "restore": "go back to a copy of the log; the log as it is is kept aside",
    "move": "take the log whole to a server or another folder, proved there",
    "laptop": "a laptop of this office: its first file, or that it is lost",
    "join": "begin the log of a laptop with the file that the office made",
    "take-out": "take a job out of the office, to work on it offline",
    "bring-back": "give a job back to the office",
    "exchange": "with the office or its laptops: by a folder or over ssh",
    "settle": "what came of work done twice or lost; two choices each",
    "numbers": "the letters that numbers of this log begin with",
    "tend": "look whether the log is whole, and who may use it",
    "head": "proves later that nothing in the log was altered",
    "known-as": "who comes through a shared account, for a forced command of ssh",
    "schema": "the layout of a job as JSON Schema",
    "config": "which settings hold, and where each comes from",
    "licences": "every library the program stands on, with version and licence",
    "completion": "what a shell needs to complete commands and options",
    "help": "how a command is typed; the whole manual as a man page",
}


def command_named(name: str) -> Command:
    """The command of that name; UnusableError where there is none, with the one that may be meant."""
    if name not in SUMMARIES:
        near = get_close_matches(name, SUMMARIES, 1, 0.7)
        meant = f"; did you mean {near[0]}?" if near else ""
        raise UnusableError(f"There is no command {name!r}{meant or '; ohmfolio help lists them'}")
    command: Command = import_module(f"tui.commands.{name.replace('-', '_')}").COMMAND
    return command
