"""What may be set: every key, what it takes, and what holds where nobody has set it."""

from __future__ import annotations

import re
import shlex
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from tui.log_place import is_server

PREFIX = "OHMFOLIO_"


@dataclass(frozen=True, slots=True)
class SettingKey:
    """One thing that can be set."""

    name: str
    says: str
    takes: str
    """What a value may be, in words."""
    usual: str
    fits: Callable[[str], bool]
    is_path: bool = False
    """A file or folder: a whole path where a file of settings names it."""
    keeps_capitals: bool = False
    is_computers: bool = False
    """Only the computer's own file may say it, and only where nobody but its keeper can write that."""

    @property
    def variable(self) -> str:
        """The environment's name for it."""
        return f"{PREFIX}{self.name.upper()}"


def _is_folder(value: str) -> bool:
    return bool(value.strip())


def _is_address(value: str) -> bool:
    return is_server(value) and not re.search(r"(?i)//[^/@]*:[^/@]*@|password=", value)


def _are_letters(value: str) -> bool:
    return re.fullmatch("[A-Za-z]{1,4}", value) is not None


def _is_count(value: str) -> bool:
    return value.isascii() and value.isdecimal() and len(value) < 5


def _is_web_address(value: str) -> bool:
    return value.startswith(("https://", "http://")) and value.isascii() and value.isprintable() and " " not in value


def _is_journal(value: str) -> bool:
    return value == SYSLOG or value.startswith(("/", "~/"))


def _is_command(value: str) -> bool:
    try:
        return bool(shlex.split(value))
    except ValueError:
        return False


HOME: Final = SettingKey(
    "home", "The folder that holds the job log.", "a folder", "", _is_folder, is_path=True, keeps_capitals=True
)
LOG: Final = SettingKey(
    "log",
    "The server that holds the job log, instead of a folder. Passwords stand in ~/.pgpass, which only you may read.",
    "postgresql://PERSON@HOST/DATABASE, without a password",
    "",
    _is_address,
    keeps_capitals=True,
)
LETTERS: Final = SettingKey(
    "letters",
    "The letters that the numbers of a new log begin with; the screens ask for them where none are set, commands take A.",
    "one to four letters from A to Z",
    "",
    _are_letters,
    keeps_capitals=True,
)
COPIES: Final = SettingKey(
    "copies",
    "For how many days a copy of the day is kept beside the log; 0 for none.",
    "a number from 0 to 9999",
    "7",
    _is_count,
)
GLYPHS: Final = SettingKey(
    "glyphs",
    "ascii for terminals without Ω and ✓, where R stands for ohm; all for those that show every letter; "
    "auto goes by the terminal.",
    "auto, ascii or all",
    "auto",
    {"auto", "ascii", "all"}.__contains__,
)
DRIVER: Final = SettingKey(
    "driver",
    "own sends a terminal only what changed; stock leaves the painting to the framework, if a terminal paints wrongly.",
    "own or stock",
    "own",
    {"own", "stock"}.__contains__,
)
AUTHORITIES: Final = SettingKey(
    "authorities",
    "Certificates of the authorities that signatures behind papers may go back to, in one file of PEM.",
    "a file",
    "",
    _is_folder,
    is_path=True,
    keeps_capitals=True,
)
TIMESTAMP: Final = SettingKey(
    "timestamp",
    "The time-stamp service (RFC 3161) that ohmfolio sign asks; none is asked when not set.",
    "an address that begins with https:// or http://",
    "",
    _is_web_address,
    keeps_capitals=True,
)
AFTER_ISSUE: Final = SettingKey(
    "after_issue",
    "A command that is run after each issue with the folder of the pack behind it, never through a shell; none when not set.",
    "a command",
    "",
    _is_command,
    keeps_capitals=True,
)
PICTURES: Final = SettingKey(
    "pictures",
    "The folder where the camera of the visit puts its pictures; they are offered by name, the newest first.",
    "a folder",
    "",
    _is_folder,
    is_path=True,
    keeps_capitals=True,
)
JOURNAL: Final = SettingKey(
    "journal",
    "Where a line goes for each log opened, paper issued or held back, copy made and fault found: syslog, or a file. No line holds "
    "what stands in a job.",
    "syslog, or a whole path of a file",
    "",
    _is_journal,
    keeps_capitals=True,
)
SHARED: Final = SettingKey(
    "shared",
    "An account of this computer that several people come to through ssh, each by a key whose forced command, ohmfolio known-as NAME, says "
    "who it is. Only the computer's own file may set it, which nobody but root may write.",
    "the name of an account",
    "",
    _is_folder,
    keeps_capitals=True,
    is_computers=True,
)
KEYS: Final = (
    HOME,
    LOG,
    LETTERS,
    COPIES,
    GLYPHS,
    DRIVER,
    AUTHORITIES,
    TIMESTAMP,
    AFTER_ISSUE,
    PICTURES,
    JOURNAL,
    SHARED,
)
STOCK = "stock"
SYSLOG: Final = "syslog"
