"""What is common to strangers' files that are read in a process of its own, with limits: pictures, logos, jobs and tables."""

import json
from typing import Any

from storage.child_process import BeyondLimitsError, ProcessLimits, asked

_MEGABYTE = 1024 * 1024
SMALL = ProcessLimits(memory=1536, seconds=20, written=1)
"""For what comes to less than a megabyte, an image say."""


def made_apart(
    function: str,
    content: bytes,
    most: int,
    error: type[Exception],
    unreadable: str,
    limits: ProcessLimits = SMALL,
) -> dict[str, Any]:
    """What a function, by `module:name`, makes of the bytes of a file, as fields.

    Raises `error` for more than `most` bytes, with what the function refused, or, where it gave no answer, with `unreadable`.
    """
    if len(content) > most:
        raise error(f"It is larger than {most // _MEGABYTE} MB; make it smaller first")
    try:
        made: dict[str, Any] = json.loads(asked(function, content, limits))
    except (BeyondLimitsError, ValueError):
        raise error(unreadable) from None
    if "refused" in made:
        raise error(made["refused"])
    return made


def refused(error: Exception) -> bytes:
    """What a function answers, in JSON, where it makes nothing of a file."""
    return json.dumps({"refused": str(error)}).encode()
