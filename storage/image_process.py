"""What is common to images made out of strangers' files: each is made in a process of its own, with limits."""

import json
from typing import Any

from storage.child_process import BeyondLimitsError, ProcessLimits, asked

_LIMITS = ProcessLimits(memory=1536, seconds=20, written=1)
_MEGABYTE = 1024 * 1024


def made_apart(function: str, content: bytes, most: int, error: type[Exception], unreadable: str) -> dict[str, Any]:
    """What a function, by `module:name`, makes of the bytes of a file, as fields.

    Raises `error` for more than `most` bytes, with what the function refused, or, where it gave no answer, with `unreadable`.
    """
    if len(content) > most:
        raise error(f"It is larger than {most // _MEGABYTE} MB; make it smaller first")
    try:
        made: dict[str, Any] = json.loads(asked(function, content, _LIMITS))
    except (BeyondLimitsError, ValueError):
        raise error(unreadable) from None
    if "refused" in made:
        raise error(made["refused"])
    return made
