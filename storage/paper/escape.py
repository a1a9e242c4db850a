"""Text of a record made safe to set: as typed to the eye, and never markup."""

import string
import unicodedata

_DROPPED = frozenset({"Cc", "Cf", "Cs", "Co", "Cn"})
# The page engine decodes entities twice, so an ampersand is written twice over.
_ENTITIES = {mark: f"&#{ord(mark)};" for mark in string.punctuation} | {"&": "&#38;amp;"}
# Joined letters that come back from a page as the letters they join.
LIGATURES = {0xFB00: "ff", 0xFB01: "fi", 0xFB02: "fl", 0xFB03: "ffi", 0xFB04: "ffl"}
_LINE_BREAK = {"\n": "<br>"}


def clean(text: str, *, multiline: bool = False) -> str:
    """Composed letters, no control or format characters, single blanks; line ends only where they are kept."""
    composed = unicodedata.normalize("NFC", text.replace("\r\n", "\n").replace("\t", " "))
    lines = composed.split("\n") if multiline else [composed.replace("\n", " ")]
    return "\n".join(" ".join(_printable(line).split()) for line in lines).strip("\n")


def esc(text: str, *, multiline: bool = False) -> str:
    """Cleaned text as HTML that means nothing but itself; it never holds a line end."""
    table = str.maketrans(_ENTITIES | _LINE_BREAK)
    return clean(text, multiline=multiline).translate(table)


def squashed(text: str) -> str:
    """Cleaned text without blanks, to compare what was meant with what stands on the page."""
    return "".join(clean(text).split()).translate(LIGATURES)


def _printable(line: str) -> str:
    return "".join(letter for letter in line if unicodedata.category(letter) not in _DROPPED)
