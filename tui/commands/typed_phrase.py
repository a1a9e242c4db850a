"""A phrase somebody types: unseen at a terminal, a line of standard input elsewhere."""

import getpass
import sys

from domain.value import LINE_MAX, cleaned
from tui.commands.command import UnusableError

_LEAST = 8


def typed_phrase(question: str, what: str = "A signing phrase") -> str:
    """What was typed; UnusableError for what is no line of plain text."""
    try:
        text = getpass.getpass(question) if sys.stdin.isatty() else sys.stdin.readline().rstrip("\n")
    except (EOFError, UnicodeDecodeError):
        raise UnusableError(f"{what} is text, typed or on standard input") from None
    if len(text) > LINE_MAX or cleaned(text) != text:
        raise UnusableError(f"{what} is one line of plain text, up to {LINE_MAX} letters")
    return text


def new_phrase(of: str) -> str:
    """A phrase to lock something with, typed twice."""
    what = f"The phrase {of}"
    phrase, again = typed_phrase(f"{what}: ", what), typed_phrase("The same again: ", what)
    if phrase != again:
        raise UnusableError("The two were not the same; nothing was written")
    if len(phrase.strip()) < _LEAST:
        raise UnusableError(f"{what} has {_LEAST} letters or more; several words are easiest to keep in mind")
    return phrase
