"""The number of a job, as a log gives it: the letters of the log, a dash, and at least four figures."""

import re
from typing import Annotated

from pydantic import AfterValidator

from domain.value import Line

_PREFIX = "[A-Z]{1,4}"
_NUMBER = re.compile(_PREFIX + "-[0-9]{4,9}")


def is_job_number(text: str) -> bool:
    """It is one. Files are named by it, so nothing else may pass for one, wherever it comes in."""
    return _NUMBER.fullmatch(text) is not None


def is_prefix(text: str) -> bool:
    """The letters by which a log sets its numbers apart."""
    return re.fullmatch(_PREFIX, text) is not None


def _number(text: str) -> str:
    if text and not is_job_number(text):
        raise ValueError("is no number of a job; a log gives one such as A-0001")
    return text


JobNumber = Annotated[Line, AfterValidator(_number)]
"""A number, or "" for none yet."""
