"""What every value of the domain is: frozen, closed to unknown fields, and free of text a terminal would obey."""

import unicodedata
from collections.abc import Iterable
from datetime import datetime
from typing import Annotated

from pydantic import AfterValidator, BaseModel, ConfigDict, StringConstraints

LINE_MAX = 200
PROSE_MAX = 6000
_FIRST_YEAR, _LAST_YEAR = 1900, 9000
"""Years of a moment: at the ends of the calendar a change of time zone would lead out of it."""
NOT_APPLICABLE = frozenset({"n/a", "na", "n.a", "n.a.", "n / a", "not applicable"})
"""The spellings of N/A, folded. Readings and texts of every kind go by these."""
_NOTHING = NOT_APPLICABLE | {"", "none", "nil", "no", "-", "–", "—"}
_FILLERS = frozenset("\u115f\u1160\u2800\u3164\uffa0")
"""Letters and signs by their kind, of which nothing is seen."""
_SEEN = frozenset("LNPS")
"""First letters of the Unicode categories of what is seen by itself: letters, numbers, punctuation, symbols."""
_SIGNS = " .,;:!?-–—_*/\\'\"()[]"
_WORDS_FOR_NOTHING = frozenset(
    {"ok", "okay", "yes", "fine", "good", "done", "as above", "see above", "ditto", "tbc", "tba", "test"}
)
_LEAST_LETTERS = 2
"""Different letters or figures that a text has at the least."""
REPEATED = 10
"""So many times the same reason, and nobody has thought of each."""
_DIRECTION_CONTROLS = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


class Value(BaseModel):
    """A frozen value; changed by copy, compared by content."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)


def _unprintable(text: str, *, newlines: bool) -> bool:
    return not text.isprintable() and any(
        (unicodedata.category(letter) in {"Cc", "Cs"} and not (newlines and letter == "\n"))
        or letter in _DIRECTION_CONTROLS
        for letter in text
    )


def _plain_line(text: str) -> str:
    if _unprintable(text, newlines=False):
        raise ValueError("holds control characters; type plain text on one line")
    return text


def _plain_prose(text: str) -> str:
    if _unprintable(text, newlines=True):
        raise ValueError("holds control characters; type plain text")
    return text


def is_empty(held: object) -> bool:
    """Nothing stands in a field. A field left out of documents while it is empty leaves old ones as they were, to the byte."""
    return not held


def says_nothing(text: str) -> bool:
    """Left empty, or answered with None, N/A or a dash."""
    return text.strip().rstrip(".").casefold() in _NOTHING


def says_none(text: str) -> bool:
    """Answered with None, N/A or a dash; a box left empty says nothing yet."""
    return bool(text.strip()) and says_nothing(text)


def is_blank(text: str) -> bool:
    """Nothing in it can be seen: blanks, marks of no width, fillers."""
    return not text.strip() if text.isascii() else not any(_is_seen(letter) for letter in text)


def is_hollow(text: str) -> bool:
    """It says nothing: nothing to be seen, signs alone, none or N/A, a bare OK, one letter over and over.

    No such text is a reason, and none names anybody. This alone decides it.
    """
    seen = "".join(letter for letter in text if letter.isspace() or _is_seen(letter))
    words = " ".join(seen.strip().strip(_SIGNS).casefold().split())
    letters = {letter for letter in words if letter.isalnum()}
    if len(letters) < _LEAST_LETTERS:
        # One letter of another script can be a whole word, or a name.
        return all(letter.isascii() for letter in letters)
    return says_nothing(words) or words in _WORDS_FOR_NOTHING


def is_repeated(text: str, among: Iterable[str]) -> bool:
    """The same text stands in many places, so that it is the reason of none of them."""
    told = " ".join(text.split()).casefold()
    return sum(" ".join(each.split()).casefold() == told for each in among) >= REPEATED


def _is_seen(letter: str) -> bool:
    return letter not in _FILLERS and unicodedata.category(letter)[0] in _SEEN


def cleaned(text: str, *, newlines: bool = False) -> str:
    """`text` as a person pasted it, less what `Line` and `Prose` would refuse."""
    if text.isprintable():
        return text
    lines = text.replace("\r\n", "\n").replace("\r", "\n")
    if not newlines:
        lines = lines.replace("\n", " ")
    return "".join(letter for letter in lines.replace("\t", " ") if not _unprintable(letter, newlines=newlines))


Line = Annotated[str, StringConstraints(max_length=LINE_MAX), AfterValidator(_plain_line)]
"""One line as typed, up to 200 characters."""

Prose = Annotated[str, StringConstraints(max_length=PROSE_MAX), AfterValidator(_plain_prose)]
"""Running text as typed, up to 6,000 characters; new lines are kept."""


def _within_the_calendar(moment: datetime) -> datetime:
    if not _FIRST_YEAR <= moment.year <= _LAST_YEAR:
        raise ValueError(f"must lie between the years {_FIRST_YEAR} and {_LAST_YEAR}")
    if moment.utcoffset() is None:
        raise ValueError("must say of which time zone it is, as 2026-11-25T16:30:00+00:00 does")
    return moment


Moment = Annotated[datetime, AfterValidator(_within_the_calendar)]
"""A date and time of a time zone, far enough from the ends of the calendar to be told in any other."""
