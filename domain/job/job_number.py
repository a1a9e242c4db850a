"""The number of a job, as a log gives it: the letters of the log, a dash, and at least four figures."""

import re
from typing import Annotated

from pydantic import AfterValidator

from domain.value import Line
from domain.words import words_of

_PREFIX = "[A-Z]{1,4}"
_NUMBER = re.compile(_PREFIX + "-[0-9]{4,9}")


def is_job_number(text: str) -> bool:
    """It is one. Files are named by it, so nothing else may pass for one, wherever it comes in."""
    return _NUMBER.fullmatch(text) is not None


def is_prefix(text: str) -> bool:
    """The letters by which a log sets its numbers apart."""
    return re.fullmatch(_PREFIX, text) is not None


def prefix_of(number: str) -> str:
    """The letters of the log that gave a number."""
    return number.partition("-")[0]


def prefix_offered(name: str) -> str:
    """The initials of somebody, as letters for the numbers of their log; "A" where their name has none."""
    initials = "".join(word[:1] for word in words_of(name)).upper()
    return "".join(letter for letter in initials if is_prefix(letter))[:4] or "A"


def _number(text: str) -> str:
    if text and not is_job_number(text):
        raise ValueError("is no number of a job; a log gives one such as A-0001")
    return text


JobNumber = Annotated[Line, AfterValidator(_number)]
"""A number, or "" for none yet."""
